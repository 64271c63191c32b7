"""The installed Chromium, and how it is started for tests."""

from shutil import which

NAMES = ("chromium", "chromium-browser", "google-chrome")
FLAGS = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync"),
)


def chromium_path() -> str:
    """The installed browser. Raises FileNotFoundError where there is none."""
    found = next(filter(None, map(which, NAMES)), None)
    if found is None:
        raise FileNotFoundError("Chromium is not installed: run tests/browser/install-browser.sh")
    return found
