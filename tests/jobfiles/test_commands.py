"""`evenbed job-out` and `job-in`: a job leaves one database and comes into another, and the log proves it there."""

from pathlib import Path

import pytest

from evenbed.cli import main
from tests.jobfiles.hostile import good, text, zipped


def run(*command: str, data: Path) -> int:
    """One command on the database in that folder."""
    return main([*command, "--data", str(data)])


def test_a_job_goes_out_of_one_database_and_into_another_once(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    first, second, file = tmp_path / "first", tmp_path / "second", tmp_path / "job.zip"
    assert run("demo", data=first) == 0
    assert run("job-out", _demo_job(first, capfd), str(file), data=first) == 0
    assert "changes and 0 photos" in capfd.readouterr().out
    assert run("job-in", str(file), data=second) == 0
    assert "0 changes were here already" in capfd.readouterr().out
    assert run("verify", data=second) == 0
    assert "0 differences" in capfd.readouterr().out
    assert run("job-in", str(file), data=second) == 0
    assert "0 changes and 0 photos are new" in capfd.readouterr().out


def _demo_job(data: Path, capfd: pytest.CaptureFixture[str]) -> str:
    """A name that no job has makes the command list those that there are."""
    assert run("job-out", "nowhere", str(data / "x.zip"), data=data) == 1
    listed = capfd.readouterr().err
    assert "0 jobs are called 'nowhere'" in listed
    return listed.rpartition("(")[2].partition(")")[0]


def test_a_file_that_is_there_is_never_written_over(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "job.zip"
    file.write_bytes(b"mine")
    assert run("demo", data=tmp_path) == 0
    assert run("job-out", _demo_job(tmp_path, capfd), str(file), data=tmp_path) == 1
    assert file.read_bytes() == b"mine"


def test_a_file_of_no_use_is_refused_with_its_reason_and_nothing_is_kept(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    file, newer = tmp_path / "job.zip", good() | {"evenbed_job": 2}
    for content, words in ((b"no zip", "no zip file"), (zipped(text(newer)), "newer version of Evenbed")):
        file.write_bytes(content)
        assert run("job-in", str(file), data=tmp_path) == 1
        assert words in capfd.readouterr().err
    assert not (tmp_path / "evenbed.db").exists()


def test_names_that_this_version_does_not_know_are_said_to_be_left_out(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "job.zip"
    file.write_bytes(zipped(text(good() | {"colour": "red"})))
    assert run("job-in", str(file), data=tmp_path) == 0
    told = capfd.readouterr().out
    assert "3 changes and 1 photos are new" in told
    assert "Left out, for this version does not know it: colour." in told
