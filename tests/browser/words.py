"""The sentences of the screens, read from the app's own words, as patterns to look for on a screen."""

import re
from pathlib import Path

WORDS = Path(__file__).parents[2] / "web" / "src" / "words"
ENTRY = re.compile(r'^\s+(?:"([\w.]+)"|(\w+)):\s*"((?:[^"\\]|\\.)*)",?$', re.MULTILINE)
BLANK = re.compile(r"\{([^{}]*)\}")


def sentences(language: str) -> dict[str, str]:
    """Every sentence of the language by its key. Raises FileNotFoundError for a language that is not there."""
    texts = [path.read_text() for path in sorted((WORDS / language).glob("*.ts"))]
    if not texts:
        raise FileNotFoundError(f"no words in {WORDS / language}")
    found = [entry for text in texts for entry in ENTRY.findall(text)]
    return {quoted or bare: text for quoted, bare, text in found}


def letters(sentence: str) -> str:
    """What the sentence says apart from its blanks."""
    return "".join(re.findall(r"[^\W\d_]", BLANK.sub(lambda blank: "".join(_forms(blank)), sentence)))


def _forms(blank: "re.Match[str]") -> list[str]:
    """The forms to choose from in `{count|reading|readings}`; none in a plain blank."""
    return blank.group(1).split("|")[1:]


def _blank(match: "re.Match[str]") -> str:
    forms = _forms(match)
    return f"(?:{'|'.join(map(re.escape, forms))})" if forms else ".+"


def pattern(sentence: str) -> str:
    """The sentence as a pattern: anything in its blanks, either form where it has a singular and a plural."""
    parts = BLANK.split(sentence)
    blanks = [_blank(match) for match in BLANK.finditer(sentence)]
    fixed = [re.escape(part) for part in parts[::2]]
    return "".join(a + b for a, b in zip(fixed, [*blanks, ""], strict=True))


def matcher(some: dict[str, str]) -> "re.Pattern[str]":
    """Finds a whole text that is one of the sentences; those that are blanks alone would match anything: left out."""
    patterns = sorted({pattern(text) for text in some.values() if len(letters(text)) >= 2})
    return re.compile("|".join(patterns), re.DOTALL)
