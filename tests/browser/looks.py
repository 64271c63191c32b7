"""What can be measured of a screen: sizes under the thumb, what sticks out, contrast of text, its words."""

from pathlib import Path
from typing import Any

from playwright.sync_api import Page

LOOKS = Path(__file__).with_suffix(".js").read_text()


def _look(page: Page, name: str, given: object = None) -> Any:
    return page.evaluate(f"(given) => {LOOKS.rstrip()}.{name}(given)", given)


def small_targets(page: Page, least_px: int) -> list[str]:
    """Buttons, links and fields narrower or lower than a gloved thumb needs."""
    found: list[str] = _look(page, "smallTargets", least_px)
    return found


def sticking_out(page: Page) -> list[str]:
    """What is wider than the window, and text that is cut at its own box."""
    found: list[str] = _look(page, "stickingOut")
    return found


def faint_text(page: Page, least_ratio: float) -> tuple[int, list[str]]:
    """How many texts were measured (drawings and sleeping buttons are not), and those below the ratio.

    The ratio is WCAG 2's: relative luminance of the two colours, each with 0.05 added.
    """
    told = _look(page, "faintText", least_ratio)
    return told["seen"], told["found"]


def words_on(page: Page) -> list[str]:
    """Every text a person sees or hears read out."""
    found: list[str] = _look(page, "words")
    return found


def focused(page: Page) -> tuple[str, float]:
    """What has the focus, and how wide its ring is (px)."""
    name, ring = _look(page, "focused")
    return name, ring
