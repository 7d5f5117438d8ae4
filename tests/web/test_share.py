"""`hookside serve --share` as a process: what it prints, and what it does not open by itself."""

from __future__ import annotations

import os
import re
import signal
import socket
import ssl
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest


@contextmanager
def served(server: Any, terminal: bool = False) -> Iterator[Iterator[str]]:
    """A shared server that prints to a pipe, or to a terminal; its lines as they come."""
    server.stop()
    command = [*server.command(), "--share", "--address", "127.0.0.1"]
    ours, theirs = os.openpty() if terminal else os.pipe()
    process = subprocess.Popen(command, env=server.environment(), stdout=theirs, text=True)
    os.close(theirs)
    with open(ours, encoding="utf-8") as told:
        try:
            yield told
        finally:
            process.send_signal(signal.SIGTERM)
            code = process.wait(60)
    assert code == 0


def printed(told: Iterator[str], until: str) -> str:
    """What it prints up to a line with these words."""
    lines = []
    for line in told:
        lines.append(line)
        if until in line:
            return "".join(lines)
    raise AssertionError(f"never printed: {until}; but {lines}")


def test_it_tells_how_a_phone_gets_in(server: Any) -> None:
    with served(server, terminal=True) as told:
        said = printed(told, "asks you to let it in")
        assert f"Hookside is at {server.url}\n" in said
        trust = re.search(r"http://127\.0\.0\.1:\d+/trust", said)
        house = re.search(r"https://127\.0\.0\.1:(\d+) and (https://hookside-\w{4}\.local:\d+)", said)
        assert trust
        assert house
        assert re.search(r"type \w{4} \w{4} ", said)
        assert "█" in "".join(next(told) for _ in range(3))
        with urllib.request.urlopen(trust[0].replace("/trust", "/hookside.crt"), timeout=30) as file:
            context = ssl.create_default_context(cadata=file.read())
        name = house[2].removeprefix("https://").split(":")[0]
        raw = socket.create_connection(("127.0.0.1", int(house[1])), timeout=30)
        with context.wrap_socket(raw, server_hostname=name) as line:
            assert line.version() in ("TLSv1.2", "TLSv1.3")
        assert (server.folder / "doors").stat().st_mode & 0o777 == 0o700
        assert {f.stat().st_mode & 0o777 for f in (server.folder / "doors").iterdir() if f.name != "port"} == {0o600}
    # For this time alone: the next start is on its own again.
    server.start()
    assert server.api("GET", "/api/share")[1]["on"] is False


def test_what_may_be_a_log_gets_no_invitation(server: Any) -> None:
    with served(server) as told:
        said = printed(told, "Then invite it on the shelf")
        assert "/pair" not in said
        assert "█" not in said
        invited = server.api("GET", "/api/share")[1]["invited"]
        assert invited == {"link": 0, "typed": 0}


def test_a_second_start_says_where_to_share(server: Any) -> None:
    command = [*server.command(), "--share"]
    told = subprocess.run(command, env=server.environment(), capture_output=True, text=True, timeout=60)
    assert told.returncode == 0
    assert "share it there, on the shelf" in told.stdout


@pytest.mark.parametrize("address", ["8.8.8.8", "gulls.example", "0.0.0.0", "192.0.2.2", "::1", ""])
def test_an_address_that_no_house_has_is_said(server: Any, tmp_path: Path, address: str) -> None:
    command = [sys.executable, "-m", "hookside", "serve", "--no-browser", "--folder", str(tmp_path / "other")]
    told = subprocess.run(
        [*command, "--share", "--address", address],
        env=server.environment(), capture_output=True, text=True, timeout=60,
    )  # fmt: skip
    assert told.returncode == 2
    assert "is not an address of a house" in told.stderr


def test_a_taken_port_is_no_reason_to_stop(server: Any) -> None:
    with served(server) as told:
        printed(told, "Then invite it on the shelf")
    port = int((server.folder / "doors" / "port").read_text(encoding="ascii"))
    with socket.socket() as stranger:
        stranger.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        stranger.bind(("0.0.0.0", port))
        stranger.listen()
        command = [*server.command(), "--share", "--address", "127.0.0.1"]
        with subprocess.Popen(
            command, env=server.environment(), stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
        ) as process:
            assert process.stderr is not None
            assert f"It is not shared: Port {port}" in process.stderr.readline()
            assert server.api("GET", "/api/share")[1]["on"] is False
            process.send_signal(signal.SIGTERM)
            assert process.wait(60) == 0


def test_by_itself_nothing_listens_to_the_network(server: Any) -> None:
    """Of the process itself, as the system tells: every listener is bound to this machine alone."""
    assert server.process is not None
    handles = Path(f"/proc/{server.process.pid}/fd")
    if not handles.is_dir():  # another system than Linux keeps no such list; the state is asked instead
        assert server.api("GET", "/api/share")[1]["on"] is False
        return
    inodes = set()
    for handle in handles.iterdir():
        found = re.fullmatch(r"socket:\[(\d+)\]", str(handle.readlink()))
        inodes |= {found[1]} if found else set()
    listening = []
    for table in ("tcp", "tcp6", "udp", "udp6"):
        lines = Path(f"/proc/{server.process.pid}/net/{table}").read_text(encoding="ascii").splitlines()[1:]
        for fields in (line.split() for line in lines):
            listens = fields[3] == "0A" if table.startswith("tcp") else True
            if listens and fields[9] in inodes:
                listening.append(fields[1].split(":")[0])
    assert listening == ["0100007F"]  # 127.0.0.1, as Linux writes it on this byte order
