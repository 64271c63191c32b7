"""The browser engine of iPhones: WebKitGTK's MiniBrowser, the size of a phone, on a screen that nobody sees."""

import os
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from shutil import which

from selenium.webdriver import WebKitGTK
from selenium.webdriver.webkitgtk.options import Options
from selenium.webdriver.webkitgtk.service import Service as Driver

FOLDERS = (Path("/usr/lib"), Path("/usr/libexec"))
PATTERNS = ("webkit2gtk-4.*/MiniBrowser", "*/webkit2gtk-4.*/MiniBrowser")
PHONE = (360, 740)
# The browser's own bar would keep the window wider than a phone.
NARROW_BAR = "* { padding: 0; margin: 0; min-width: 0; min-height: 0; border-width: 0; font-size: 1px; }"


def browser_path() -> str:
    """The installed browser. Raises FileNotFoundError where it, its driver or the screen's program is missing."""
    found = sorted(path for folder in FOLDERS for pattern in PATTERNS for path in folder.glob(pattern))
    if not found or which("WebKitWebDriver") is None or which("Xvfb") is None:
        raise FileNotFoundError("WebKit is not installed: run tests/browser/install-browser.sh")
    return str(found[-1])


@contextmanager
def screen() -> Iterator[str]:
    """A screen in memory, under a free name."""
    words = ["Xvfb", "-displayfd", "1", "-screen", "0", "1600x1000x24", "-nolisten", "tcp"]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as process:
        assert process.stdout is not None
        try:
            yield f":{process.stdout.readline().strip()}"
        finally:
            process.terminate()


@contextmanager
def webkit(folder: Path) -> Iterator[WebKitGTK]:
    """A browser whose settings and storage live in the folder and end with it."""
    bar = folder / "gtk-3.0" / "gtk.css"
    bar.parent.mkdir(parents=True)
    bar.write_text(NARROW_BAR)
    options = Options()
    options.binary_location = browser_path()
    options.add_argument("--automation")
    with screen() as display:
        told = {"DISPLAY": display, "HOME": str(folder), "XDG_CONFIG_HOME": str(folder), "LANG": "en_US.UTF-8"}
        service = Driver(which("WebKitWebDriver"), log_output=str(folder / "driver.log"), env=os.environ | told)
        driver = WebKitGTK(options=options, service=service)
        try:
            driver.set_window_size(*PHONE)
            yield driver
        finally:
            driver.quit()
