"""Our `.local` name, told to the local network (multicast DNS, RFC 6762)."""

from __future__ import annotations

import logging
import socket
import threading
from collections.abc import Sequence
from contextlib import suppress
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from zeroconf import Zeroconf


class Announcement:
    """Says who we are while it stands. A network without multicast is no trouble: the address works alone.

    Everything happens on a thread of its own: to make sure that nobody else has the name takes a second or two.
    """

    def __init__(self, name: str, port: int, addresses: Sequence[str]) -> None:
        self.name, self.port, self.addresses = name, port, list(addresses)
        self.heard = False  # whether the name is registered
        self.over = threading.Event()
        self.thread = threading.Thread(target=self._stand, daemon=True)
        self.thread.start()

    def _stand(self) -> None:
        from zeroconf import Error, IPVersion, ServiceInfo, Zeroconf

        logging.getLogger("zeroconf").setLevel(logging.CRITICAL)  # it tells of every odd packet in the house
        kind = "_https._tcp.local."
        service = ServiceInfo(
            kind, f"{self.name.removesuffix('.local')}.{kind}", self.port, server=f"{self.name}.",
            addresses=[socket.inet_aton(at) for at in self.addresses], properties={"path": "/"},
        )  # fmt: skip
        line: Zeroconf | None = None
        try:
            line = Zeroconf(interfaces=self.addresses, ip_version=IPVersion.V4Only)
            if not self.over.is_set():
                line.register_service(service)
                self.heard = True
                self.over.wait()
        except (OSError, Error, RuntimeError, TimeoutError):
            self.heard = False
        finally:
            if line is not None:
                with suppress(OSError, Error, RuntimeError, TimeoutError):
                    line.close()  # takes the name back as well

    def end(self) -> None:
        self.over.set()
        self.thread.join(5)
