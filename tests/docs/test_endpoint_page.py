"""The page on the endpoint is followed from top to bottom, with a server that really listens."""

from __future__ import annotations

import contextlib
import os
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

from doc_pages import ROOT, fenced, read, shell, shown_as

PAGE = read("endpoint.md")
AT = "127.0.0.1:8000"
# What a container has no program for: fetch an address, or send it a body.
CURL = """#!{python}
import sys, urllib.error, urllib.request
body = None
for option, value in zip(sys.argv, sys.argv[1:]):
    if option == "-d":
        text = open(value[1:]).read() if value.startswith("@") else value
        body = text.encode()
try:
    answer = urllib.request.urlopen(sys.argv[-1], body)
except urllib.error.HTTPError as refusal:
    answer = refusal
sys.stdout.write(answer.read().decode())
"""


@pytest.mark.slow
def test_whoever_does_what_the_page_says_gets_plans_for_an_own_vehicle(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    work = repository(tmp_path)
    curl = tmp_path / "curl"
    curl.write_text(CURL.format(python=sys.executable), encoding="utf-8")
    curl.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path), prepend=os.pathsep)
    place, printed, followed = "", "", 0
    with contextlib.ExitStack() as running:
        for language, content in fenced(PAGE):
            if "uvicorn" in content and language == "sh":
                running.close()
                place = free_place()
                running.enter_context(served(content, place, work))
            elif language == "sh":
                done = shell(content.replace(AT, place), work)
                assert done.returncode == 0, done.stdout
                printed, followed = done.stdout, followed + 1
                if "new-pack" in content:
                    put_in_new_lines(work)
            elif language == "text":
                assert shown_as(content).fullmatch(printed), printed
    assert followed == 7


def test_it_is_installed_as_the_readme_says() -> None:
    (script,) = [text for language, text in fenced(PAGE) if language == "bash"]

    command = script.splitlines()[0].removesuffix(" starlette uvicorn")
    assert command in (ROOT / "README.md").read_text(encoding="utf-8")


def repository(folder: Path) -> Path:
    """The folder of the repository, as far as the page needs it, to write into."""
    work = folder / "repository"
    (work / "docs").mkdir(parents=True)
    (work / "plugins").symlink_to(ROOT / "plugins")
    (work / "docs" / "examples").symlink_to(ROOT / "docs" / "examples")
    return work


def free_place() -> str:
    """An address that nobody listens at."""
    with socket.socket() as tried:
        tried.bind(("127.0.0.1", 0))
        return f"127.0.0.1:{tried.getsockname()[1]}"


@contextlib.contextmanager
def served(script: str, place: str, folder: Path) -> Iterator[None]:
    """The endpoint, as the page starts it, but at a port of its own."""
    program = f"{sys.executable} -m uvicorn --port {place.partition(':')[2]}"
    with subprocess.Popen(
        ["sh", "-c", script.replace("uvicorn", program, 1)],
        cwd=folder,
        start_new_session=True,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    ) as process:
        try:
            wait_for(f"http://{place}/vehicles", process)
            yield
        finally:
            os.killpg(process.pid, signal.SIGTERM)


def wait_for(address: str, process: subprocess.Popen[bytes]) -> None:
    """Wait until the endpoint answers, as long as it may still come."""
    for _ in range(600):
        assert process.poll() is None
        with contextlib.suppress(OSError), urllib.request.urlopen(address) as answer:  # noqa: S310 - of this machine
            assert answer.status == 200
            return
        time.sleep(0.1)
    pytest.fail(f"{address} does not answer")


def put_in_new_lines(work: Path) -> None:
    """Do what the table of the page says: replace a line below the head of its table."""
    rows = re.findall(
        r"^\| `(\w+\.toml)` \| `(\[\[[\w.]+\]\])` \| `((\w+) = .*)` \|$", PAGE, re.MULTILINE
    )
    assert len(rows) == 14
    for file, head, line, key in rows:
        path = work / "lorry/src/barwright_pack_lorry" / file
        before, found, after = path.read_text("utf-8").partition(f"{head}\n")
        changed, times = re.subn(rf"^{key} = [^#\n]*", line, after, count=1, flags=re.MULTILINE)
        assert found, head
        assert times == 1, line
        path.write_text(before + found + changed, encoding="utf-8")
