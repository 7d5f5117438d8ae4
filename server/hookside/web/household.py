"""Where this machine is in the house: its addresses on the local network, and the name we give it there."""

from __future__ import annotations

import json
import secrets
import socket
from dataclasses import asdict, dataclass, field
from pathlib import Path

from hookside.web.keep import keep

FILE = "household.json"
LETTERS = "34679acdefhjkmnpqrtwxy"  # none that can be taken for another
EARLIER = 8  # addresses of before that are remembered: pages may still be open that came from there


@dataclass
class Household:
    """What is remembered from one start to the next. `shared`: the maker wants it shared until further notice."""

    name: str
    shared: bool = False
    earlier: list[str] = field(default_factory=list)

    @staticmethod
    def of(folder: Path) -> Household:
        """As it was kept; a new name where nothing was."""
        try:
            kept = json.loads((folder / FILE).read_text(encoding="utf-8"))
            return Household(str(kept["name"]), bool(kept["shared"]), [str(at) for at in kept["earlier"]])
        except (OSError, ValueError, KeyError, TypeError):
            return Household(f"hookside-{''.join(secrets.choice(LETTERS) for _ in range(4))}.local")

    def keep(self, folder: Path) -> None:
        """Raises OSError."""
        keep(folder / FILE, json.dumps(asdict(self)).encode())

    def met(self, addresses: list[str]) -> None:
        """These are the addresses now: the newest first, a few of before behind them."""
        self.earlier = list(dict.fromkeys([*addresses, *self.earlier]))[:EARLIER]


def towards_the_world() -> str | None:
    """The address that would be used to reach the world outside. Nothing is sent to find out (192.0.2.0/24 is for
    documents: RFC 5737)."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
            return str(probe.getsockname()[0])
        except OSError:
            return None


def addresses() -> list[str]:
    """This machine's IPv4 addresses that only a house has; the one that leads to the router first, and those that a
    cable without a router gives out (169.254) last."""
    import ifaddr

    from hookside.web.tls.authority import private

    found = [ip.ip for adapter in ifaddr.get_adapters() for ip in adapter.ips if isinstance(ip.ip, str)]
    first = towards_the_world()
    kept = [at for at in dict.fromkeys(found) if private(at) and not at.startswith("127.")]
    return sorted(kept, key=lambda at: (at.startswith("169.254."), at != first))
