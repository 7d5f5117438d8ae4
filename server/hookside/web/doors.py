"""The doors of the house: which listeners there are, what they are called, and who may come in by them."""

from __future__ import annotations

from pathlib import Path

from hookside.web.address import Address, sockets
from hookside.web.devices import Devices
from hookside.web.lobby import Listener
from hookside.web.pairing import Pairing
from hookside.web.sharing import Sharing

FOLDER = "doors"  # of keys and devices, in the data folder


def policy(connect: list[str]) -> str:
    """The content security policy: our own files, our own sockets, nothing inline."""
    return "; ".join(
        [
            "default-src 'none'",
            "script-src 'self'",
            "style-src 'self'",
            "font-src 'self'",
            "img-src 'self' data:",
            "media-src 'self' blob: data:",
            " ".join(["connect-src 'self'", *connect]),
            "manifest-src 'self'",
            "worker-src 'self'",
            "base-uri 'none'",
            "form-action 'none'",
            "frame-ancestors 'none'",
        ]
    )


class Doors:
    """`here`: this machine alone, nobody is asked. `house`: the network, where only paired devices come in."""

    def __init__(self, folder: Path, here: Address) -> None:
        self.folder = folder / FOLDER
        self.here = here
        self.house: Address | None = None
        self.devices = Devices(self.folder)
        self.pairing = Pairing(self.devices)
        self.sharing = Sharing(self)
        self.origins: dict[Listener, frozenset[str]] = {"here": here.origins}
        self.policies: dict[Listener, str] = {"here": policy(sockets(here.urls))}

    def open_house(self, address: Address, earlier: list[str]) -> None:
        """The network's door answers at this address. `earlier`: where pages that are still open may have come from,
        when the address was another."""
        self.origins = self.origins | {"house": address.origins | {address.at(name) for name in earlier}}
        self.policies = self.policies | {"house": policy(sockets(address.urls))}
        self.house = address

    def close_house(self) -> None:
        self.house = None
        self.pairing.cancel()

    def address(self, listener: Listener) -> Address | None:
        return {"here": self.here, "house": self.house}.get(listener)
