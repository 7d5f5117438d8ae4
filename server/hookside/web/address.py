"""The address one server answers at, and the names a browser may use for it."""

from __future__ import annotations

from dataclasses import dataclass

NAMES = ("127.0.0.1", "localhost", "[::1]")


@dataclass(frozen=True)
class Address:
    """A port on this machine. Only this machine can reach it."""

    port: int
    host: str = "127.0.0.1"

    @property
    def url(self) -> str:
        """What is printed and opened. Always the same name: another name is another origin, with another outbox."""
        return f"http://{self.host}:{self.port}"

    @property
    def hosts(self) -> frozenset[str]:
        """Values of the Host header that mean this server."""
        return frozenset(f"{name}:{self.port}" for name in NAMES)

    @property
    def origins(self) -> frozenset[str]:
        """Values of the Origin header that our own pages send."""
        return frozenset(f"http://{host}" for host in self.hosts)
