"""Who has to go when the house is full."""

from __future__ import annotations

from callers import called

from hookside.web.lobby import Lobby


def test_who_is_being_answered_is_never_sent_away() -> None:
    lobby = Lobby(most=2)
    first, second, third, fourth = (called() for _ in range(4))
    assert lobby.admit(first)
    assert lobby.admit(second)
    first.arrived()
    assert lobby.admit(third)  # in place of the second, who still waits
    assert list(lobby.inside) == [first, third]
    third.arrived()
    assert not lobby.admit(fourth)
    lobby.leave(first)
    assert lobby.admit(fourth)


def test_one_address_pays_with_its_own() -> None:
    lobby = Lobby(most=100, each=2)
    gull, seal = called(address="192.168.1.7"), called(address="192.168.1.8")
    assert lobby.admit(seal)
    assert lobby.admit(gull)
    assert lobby.admit(called(address="192.168.1.7"))
    assert lobby.admit(called(address="192.168.1.7"))
    assert gull not in lobby.inside
    assert seal in lobby.inside
    for caller in list(lobby.inside):
        caller.arrived()
    assert not lobby.admit(called(address="192.168.1.7"))
    assert lobby.admit(called(address="192.168.1.9"))


def test_leaving_twice_counts_once() -> None:
    lobby = Lobby(most=1, each=1)
    first = called()
    assert lobby.admit(first)
    lobby.leave(first)
    lobby.leave(first)
    assert lobby.by_address == {}
    assert lobby.admit(called())
