"""What the first command prints is enough to be at work: an address, a join code, a demo job."""

import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import expect
from tests.browser.phone import Phone

pytestmark = pytest.mark.browser


def lines_until_address(process: "subprocess.Popen[str]") -> str:
    """Everything printed up to the line with the address."""
    told = ""
    assert process.stdout is not None
    for line in process.stdout:
        told += line
        if "http://" in line:
            break
    return told


def test_the_printed_address_and_code_open_the_demo_job(tmp_path: Path, new_phone: Callable[..., Phone]) -> None:
    words = ["serve", "--demo", "--new-code", "--port", "0", "--data", str(tmp_path)]
    with subprocess.Popen([sys.executable, "-m", "evenbed", *words], stdout=subprocess.PIPE, text=True) as process:
        told = lines_until_address(process)
        address, code = re.search(r"http://\S+", told), re.search(r"Join code: (\S+)", told)
        assert address is not None, told
        assert code is not None, told
        phone = new_phone(cold=True)
        phone.open(address[0])
        phone.join(code[1], "Rosa")
        phone.tap("job")
        expect(phone.page.get_by_test_id("room")).to_have_count(2)
        phone.tap("room")
        phone.wait_for("figure-bed-volume-value")
        phone.shot("first-start-demo-room")
        assert phone.complaints == []
        process.terminate()
