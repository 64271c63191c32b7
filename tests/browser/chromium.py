"""The installed Chromium, and how it is started for tests."""

from shutil import which

NAMES = ("chromium", "chromium-browser", "google-chrome")
UNWANTED = (
    *("WebUIOmniboxPopup", "WebUIOmniboxAimPopup", "WebUIToolbarWebView"),  # pages for a bar that nobody sees
    *("PaintHolding", "OptimizationHints", "NetworkTimeServiceQuerying", "PreconnectToSearch", "MediaRouter"),
    *("LensOverlay", "DestroyProfileOnBrowserClose", "AvoidUnnecessaryBeforeUnloadCheckSync", "HttpsUpgrades"),
)
"""What a browser's window does beside showing a page. The list takes the place of the driver's own, and holds it."""
FLAGS = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync", f"--disable-features={','.join(UNWANTED)}"),
)


def chromium_path() -> str:
    """The installed browser. Raises FileNotFoundError where there is none."""
    found = next(filter(None, map(which, NAMES)), None)
    if found is None:
        raise FileNotFoundError("Chromium is not installed: run tests/browser/install-browser.sh")
    return found
