"""What can be measured of a screen: sizes under the thumb, what sticks out, contrast of text."""

from typing import Any

from playwright.sync_api import Page

SMALL_TARGETS = """(least) => [...document.querySelectorAll("a[href], button, input, select, [role=button]")]
  .filter((box) => box.checkVisibility({ visibilityProperty: true }))
  .map((box) => ({ box, size: box.getBoundingClientRect() }))
  .filter(({ size }) => size.width > 0 && (size.width < least - 0.5 || size.height < least - 0.5))
  .map(({ box, size }) => `${box.dataset.testid ?? box.className ?? box.tagName}: ${Math.round(size.width)} x ${Math.round(size.height)}`)"""

STICKING_OUT = """() => {
  const wide = document.documentElement.scrollWidth > innerWidth ? [`page: ${document.documentElement.scrollWidth}`] : [];
  const scrolls = (box) => box !== null && (box.closest("svg") !== null || /auto|scroll|hidden|clip/.test(getComputedStyle(box).overflowX));
  const held = (box) => { for (let at = box.parentElement; at; at = at.parentElement) if (at !== document.body && scrolls(at) && at.getBoundingClientRect().right <= innerWidth + 1) return true; return false; };
  const out = [...document.querySelectorAll("body *")].filter((box) => box.checkVisibility({ visibilityProperty: true }) && !box.closest("svg") && box.getBoundingClientRect().width > 0 && box.getBoundingClientRect().right > innerWidth + 1 && !held(box));
  const cut = [...document.querySelectorAll("button, a[href], p, h1, h2, h3, dt, dd, td, th, .number, .typed")]
    .filter((box) => box.checkVisibility({ visibilityProperty: true }) && box.scrollWidth > box.clientWidth + 1 && box.clientWidth > 0 && getComputedStyle(box).display !== "inline" && getComputedStyle(box).textOverflow !== "ellipsis");
  return [...wide, ...out.map((box) => `out: ${box.tagName}.${box.className}`), ...cut.map((box) => `cut: ${box.tagName}.${box.className} ${box.textContent}`)];
}"""

FAINT_TEXT = """(least) => {
  const numbers = (colour) => colour.match(/[\\d.]+/g).map(Number);
  const light = (part) => (part / 255 <= 0.04045 ? part / 255 / 12.92 : ((part / 255 + 0.055) / 1.055) ** 2.4);
  const luminance = ([r, g, b]) => 0.2126 * light(r) + 0.7152 * light(g) + 0.0722 * light(b);
  const ground = (box) => { for (let at = box; at; at = at.parentElement) { const colour = numbers(getComputedStyle(at).backgroundColor); if ((colour[3] ?? 1) === 1) return colour; } return [255, 255, 255]; };
  const faded = (box) => { let all = 1; for (let at = box; at; at = at.parentElement) all *= Number(getComputedStyle(at).opacity); return all; };
  const found = [];
  let seen = 0;
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const box = node.parentElement;
    if (!node.textContent.trim() || box.closest("svg, script, style, :disabled") || !box.checkVisibility({ visibilityProperty: true })) continue;
    seen += 1;
    const [ink, paper] = [luminance(numbers(getComputedStyle(box).color)), luminance(ground(box))];
    const ratio = (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05);
    if (ratio < least || faded(box) < 1) found.push(`${ratio.toFixed(1)} ${node.textContent.trim()}`);
  }
  return { seen, found };
}"""


def small_targets(page: Page, least_px: int) -> list[str]:
    """Buttons, links and fields narrower or lower than a gloved thumb needs."""
    found: list[str] = page.evaluate(SMALL_TARGETS, least_px)
    return found


def sticking_out(page: Page) -> list[str]:
    """What is wider than the window, and text that is cut at its own box."""
    found: list[str] = page.evaluate(STICKING_OUT)
    return found


def faint_text(page: Page, least_ratio: float) -> tuple[int, list[str]]:
    """How many texts were measured (drawings and sleeping buttons are not), and those below the ratio.

    The ratio is WCAG 2's: relative luminance of the two colours, each with 0.05 added.
    """
    told: dict[str, Any] = page.evaluate(FAINT_TEXT, least_ratio)
    return told["seen"], told["found"]
