"""The documents say what is there: commands, settings, folders, steps and words."""

import re
from pathlib import Path

import pytest

from evenbed.cli import main
from evenbed.settings import settings_from

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
MAKEFILE = (ROOT / "Makefile").read_text(encoding="utf-8")
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "Makefile", "server", "web", "migrations", "tests", "deploy"}


def found(pattern: str, text: str) -> list[str]:
    matches = sorted(set(re.findall(pattern, text)))
    assert matches, f"nothing like {pattern} is in the document any more"
    return matches


@pytest.mark.parametrize("step", found(r"(?:`|    )make ([a-z]+)", README + DEVELOPERS))
def test_every_make_step_named_is_in_the_makefile(step: str) -> None:
    assert re.search(rf"^{step}:", MAKEFILE, re.MULTILINE)


@pytest.mark.parametrize("command", found(r"bin/evenbed ([a-z-]+)", README))
def test_every_command_named_is_understood(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main([command, "--help"])
    assert ended.value.code == 0
    assert f"evenbed {command}" in capsys.readouterr().out


def test_every_command_there_is_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["--help"])
    offered = found(r"(?m)^    ([a-z-]+)(?: {2,}|$)", capsys.readouterr().out)
    assert set(offered) <= set(found(r"bin/evenbed ([a-z-]+)", README))


@pytest.mark.parametrize("setting", found(r"EVENBED_[A-Z_]+", README))
def test_every_setting_named_changes_the_settings(setting: str) -> None:
    odd = {"EVENBED_HTTPS": "1", "EVENBED_FORECAST": "https://weather.example/{latitude}/{longitude}"}
    told = odd.get(setting, "9" if setting.endswith("_S") else "5000")
    assert settings_from({setting: told}) != settings_from({})


def test_every_setting_there_is_is_named() -> None:
    source = (ROOT / "server" / "evenbed" / "settings.py").read_text(encoding="utf-8")
    assert found(r"EVENBED_[A-Z_]+(?=[\",])", source) == found(r"EVENBED_[A-Z_]+", README)


@pytest.mark.parametrize("path", found(r"\]\(([^)]+)\)", README + DEVELOPERS))
def test_every_link_leads_somewhere(path: str) -> None:
    assert (ROOT / path).exists()


@pytest.mark.parametrize("room", found(r"\| `((?:server|web)/[a-z/.]+)`", DEVELOPERS))
def test_every_room_on_the_map_is_there(room: str) -> None:
    assert (ROOT / room).exists()


@pytest.mark.parametrize("folder", found(r"`engine published ([a-z ]+)`", DEVELOPERS)[0].split())
def test_every_folder_of_tests_named_is_there(folder: str) -> None:
    assert (ROOT / "tests" / folder).is_dir()


@pytest.mark.parametrize("module", found(r"`([a-z]+)`", DEVELOPERS.split("Inside the engine:")[1].split("##")[0]))
def test_every_module_of_the_engine_named_is_there(module: str) -> None:
    assert (ROOT / "server" / "evenbed" / "engine" / f"{module}.py").exists()


def test_the_job_comes_first_in_the_readme() -> None:
    paragraph = README.split("\n\n")[1]
    assert "mortar bed" in paragraph
    assert not paragraph.startswith(("#", "!", "-"))


def test_nothing_else_stands_at_the_top() -> None:
    ignored = {"data", "out"}
    standing = {p.name for p in ROOT.iterdir() if not p.name.startswith(".")} - ignored
    assert standing <= TOP


@pytest.mark.parametrize(
    "lock",
    [
        "deploy/requirements.txt",
        "tests/requirements.txt",
        "web/package-lock.json",
        "tests/benchmarks/rival/package-lock.json",
    ],
)
def test_lock_files_carry_hashes_and_no_addresses(lock: str) -> None:
    text = (ROOT / lock).read_text(encoding="utf-8")
    assert "sha256:" in text or "sha512-" in text
    assert "://" not in text
