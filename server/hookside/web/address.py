"""The address one listener answers at, and the names a browser may use for it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

NAMES = ("127.0.0.1", "localhost", "[::1]")


@dataclass(frozen=True)
class Address:
    """A port, and the names by which it is reached, the best first."""

    port: int
    names: tuple[str, ...] = NAMES
    scheme: Literal["http", "https"] = "http"

    @property
    def host(self) -> str:
        return self.names[0]

    @property
    def url(self) -> str:
        """What is printed and opened. Always the same name: another name is another origin, with another outbox."""
        return self.at(self.host)

    @property
    def urls(self) -> list[str]:
        return [self.at(name) for name in self.names]

    def at(self, name: str) -> str:
        return f"{self.scheme}://{name}:{self.port}"

    @property
    def hosts(self) -> frozenset[str]:
        """Values of the Host header that mean this listener."""
        return frozenset(f"{name}:{self.port}" for name in self.names)

    @property
    def origins(self) -> frozenset[str]:
        """Values of the Origin header that our own pages send."""
        return frozenset(self.urls)


def sockets(addresses: Iterable[str]) -> list[str]:
    """The same places as a content security policy wants them for sockets. It has no words for brackets."""
    return sorted({url.replace("http", "ws", 1) for url in addresses if "[" not in url})
