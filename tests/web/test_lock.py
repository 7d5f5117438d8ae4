"""One process for each data folder."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from hookside.web.lock import NAME, FolderLock, Held

HOLDER = """
import sys, time
from pathlib import Path
from hookside.web.lock import FolderLock
with FolderLock(Path(sys.argv[1])) as lock:
    lock.tell("http://127.0.0.1:4717")
    print("held", flush=True)
    time.sleep(60)
"""


def holder(folder: Path) -> subprocess.Popen[str]:
    env = {**os.environ, "PYTHONPATH": os.pathsep.join(p for p in sys.path if p)}
    command = [sys.executable, "-c", HOLDER, str(folder)]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=env)
    assert process.stdout is not None
    assert process.stdout.readline() == "held\n"
    return process


def test_the_second_learns_where_the_first_answers(tmp_path: Path) -> None:
    with holder(tmp_path) as first:
        with pytest.raises(Held) as caught, FolderLock(tmp_path):
            pass
        assert caught.value.url == "http://127.0.0.1:4717"
        first.kill()


def test_a_killed_holder_leaves_no_lock_behind(tmp_path: Path) -> None:
    with holder(tmp_path) as first:
        first.send_signal(signal.SIGKILL)
        first.wait()
    assert (tmp_path / NAME).read_text(encoding="utf-8")
    with FolderLock(tmp_path) as lock:
        lock.tell("http://127.0.0.1:4718")


def test_it_can_be_taken_again_after_it_was_given_back(tmp_path: Path) -> None:
    for _ in range(2):
        with FolderLock(tmp_path):
            pass


@pytest.mark.parametrize("content", ["", "{", "[]", '{"url": 5}', "\0\0\0"])
def test_a_holder_that_has_not_said_where_it_is(tmp_path: Path, content: str) -> None:
    with FolderLock(tmp_path):
        (tmp_path / NAME).write_text(content, encoding="utf-8")
        with pytest.raises(Held) as caught, FolderLock(tmp_path, patience=0):
            pass
        assert caught.value.url is None


def test_a_holder_that_says_nothing_is_waited_for(tmp_path: Path) -> None:
    """A command has the folder for a moment and answers nobody: the next one comes after it."""
    first = FolderLock(tmp_path)
    first.__enter__()
    later = threading.Timer(0.5, first.__exit__, (None, None, None))
    later.start()
    with FolderLock(tmp_path, patience=60):
        pass
    later.join()


def test_a_shorter_text_leaves_nothing_of_the_longer_one(tmp_path: Path) -> None:
    with FolderLock(tmp_path) as lock:
        lock.tell("http://127.0.0.1:65535")
        lock.tell("http://127.0.0.1:80")
        with pytest.raises(Held) as caught, FolderLock(tmp_path):
            pass
        assert caught.value.url == "http://127.0.0.1:80"


def test_a_full_disk_does_not_keep_the_folder_from_being_held(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(handle: int, text: bytes) -> int:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "write", full)
    with FolderLock(tmp_path) as lock:
        lock.tell("http://127.0.0.1:4717")
        with pytest.raises(Held), FolderLock(tmp_path, patience=0):
            pass
