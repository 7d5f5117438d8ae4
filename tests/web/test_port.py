"""The port is chosen once and remembered."""

from __future__ import annotations

from pathlib import Path

import pytest

from hookside.web.port import NAME, PortTaken, first_free, listen, open_port, remembered


def test_chosen_once(tmp_path: Path) -> None:
    with open_port(tmp_path) as first:
        port = first.getsockname()[1]
    assert remembered(tmp_path) == port
    with open_port(tmp_path) as second:
        assert second.getsockname() == ("127.0.0.1", port)


def test_a_port_asked_for_is_remembered(tmp_path: Path) -> None:
    with listen(0) as free:
        port = free.getsockname()[1]
    with open_port(tmp_path, port):
        pass
    assert remembered(tmp_path) == port


def test_a_taken_port_is_said_and_never_changed(tmp_path: Path) -> None:
    with listen(0) as stranger:
        port = stranger.getsockname()[1]
        (tmp_path / NAME).write_text(f"{port}\n", encoding="ascii")
        with pytest.raises(PortTaken, match=f"Port {port}, which the devices of this shelf know, is taken"):
            open_port(tmp_path)
        with pytest.raises(PortTaken, match=f"Port {port}, which you asked for, is taken"):
            open_port(tmp_path, port)
    assert remembered(tmp_path) == port


def test_a_first_choice_passes_over_taken_ports(tmp_path: Path) -> None:
    with first_free() as stranger, open_port(tmp_path) as ours:
        assert ours.getsockname()[1] != stranger.getsockname()[1]


@pytest.mark.parametrize("content", ["", "gull", "0", "-4", "65536", "4717 4718", "ü"])
def test_an_unreadable_memory_counts_as_none(tmp_path: Path, content: str) -> None:
    (tmp_path / NAME).write_text(content, encoding="utf-8")
    assert remembered(tmp_path) is None
