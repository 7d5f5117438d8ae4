"""The household authority: a key that vouches for this house's own addresses and for nothing else.

A phone that trusts it trusts it for the names in its constraints alone (RFC 5280, 4.2.1.10): private ranges and our
one `.local` name. So even a stolen key cannot pass for a bank. The server itself shows a leaf, signed by the
authority, for the addresses it has just now; the leaf is made anew when they change or its end comes near.
"""

from __future__ import annotations

import datetime
import ipaddress
import ssl
from collections.abc import Sequence
from pathlib import Path

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from hookside.web.keep import keep

# RFC 1918, RFC 3927, RFC 4193, RFC 4291: addresses that no house on the internet has. The first is this machine.
RANGES = tuple(
    ipaddress.ip_network(r)
    for r in ("127.0.0.0/8", "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "fc00::/7", "fe80::/10")
)
YEARS = 10  # of the authority: every phone has to be told anew when it ends
LEAF_DAYS = 397  # Apple refuses leaves above 398 days (support.apple.com/102028, from memory)
RENEW_DAYS = 60  # before its end
BACK = datetime.timedelta(days=1)  # a phone's clock may be behind ours
KEY, CERTIFICATE, LEAF_KEY, LEAF = "authority.key", "authority.crt", "leaf.key", "leaf.crt"


class Unusable(Exception):
    """The authority's files cannot be used; says what to do."""


def now() -> datetime.datetime:
    return datetime.datetime.now(datetime.UTC)


def private(address: str) -> bool:
    """Whether an address is one that only a house, not the internet, has."""
    at = ipaddress.ip_address(address)
    return any(at in network for network in RANGES if network.version == at.version)


class Authority:
    """One for a data folder; made when it is first wanted. `name`: our `.local` name."""

    def __init__(self, folder: Path, name: str) -> None:
        self.folder, self.name = folder, name
        if not (folder / KEY).exists() and not (folder / CERTIFICATE).exists():
            self._make()
        try:
            key = serialization.load_pem_private_key((folder / KEY).read_bytes(), None)
            self.certificate = x509.load_pem_x509_certificate((folder / CERTIFICATE).read_bytes())
            fits = isinstance(key, ec.EllipticCurvePrivateKey) and key.public_key() == self.certificate.public_key()
        except (OSError, ValueError) as e:
            raise Unusable(self._unusable()) from e
        if not fits or self.certificate.not_valid_after_utc < now():
            raise Unusable(self._unusable())
        assert isinstance(key, ec.EllipticCurvePrivateKey)
        self.key = key

    def _unusable(self) -> str:
        return (
            f"The household's authority in {self.folder} cannot be used: remove {KEY} and {CERTIFICATE} there, share "
            "again, and let each phone and tablet trust the new one."
        )

    def _make(self) -> None:
        key = ec.generate_private_key(ec.SECP256R1())
        whose = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"Hookside household {self.name}")])
        allowed: list[x509.GeneralName] = [x509.DNSName(self.name), *(x509.IPAddress(network) for network in RANGES)]
        made = (
            x509.CertificateBuilder()
            .subject_name(whose)
            .issuer_name(whose)
            .public_key(key.public_key())
            .serial_number(x509.random_serial_number())
            .not_valid_before(now() - BACK)
            .not_valid_after(now() + datetime.timedelta(days=365 * YEARS))
            .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
            .add_extension(usage(signs=True), critical=True)
            .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
            .add_extension(x509.NameConstraints(permitted_subtrees=allowed, excluded_subtrees=None), critical=True)
            .sign(key, hashes.SHA256())
        )
        # The key first: a certificate without one is said, a key without one would be made over.
        keep(self.folder / KEY, pem(key))
        keep(self.folder / CERTIFICATE, made.public_bytes(serialization.Encoding.PEM))

    @property
    def file(self) -> bytes:
        """What a phone installs: the certificate, DER."""
        return self.certificate.public_bytes(serialization.Encoding.DER)

    @property
    def fingerprint(self) -> str:
        """SHA-256 of that file, in pairs, as phones show it."""
        return self.certificate.fingerprint(hashes.SHA256()).hex(":").upper()

    def leaf(self, addresses: Sequence[str]) -> ssl.SSLContext:
        """A context that shows a leaf for these addresses and our name; the one on disk where it still fits."""
        if not self.fits(addresses):
            self._issue(addresses)
        context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        context.minimum_version = ssl.TLSVersion.TLSv1_2
        context.set_alpn_protocols(["http/1.1"])
        context.load_cert_chain(self.folder / LEAF, self.folder / LEAF_KEY)
        return context

    def fits(self, addresses: Sequence[str]) -> bool:
        """Whether the leaf on disk is ours, for these addresses, and lasts a while."""
        try:
            leaf = x509.load_pem_x509_certificate((self.folder / LEAF).read_bytes())
            key = serialization.load_pem_private_key((self.folder / LEAF_KEY).read_bytes(), None)
            leaf.verify_directly_issued_by(self.certificate)
            listed = leaf.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
        except (OSError, ValueError, TypeError, InvalidSignature, x509.ExtensionNotFound):
            return False
        there = {str(at) for at in listed.get_values_for_type(x509.IPAddress)}
        names = listed.get_values_for_type(x509.DNSName)
        lasts = leaf.not_valid_after_utc > now() + datetime.timedelta(days=RENEW_DAYS)
        return lasts and there == set(addresses) and names == [self.name] and key.public_key() == leaf.public_key()

    def _issue(self, addresses: Sequence[str]) -> None:
        key = ec.generate_private_key(ec.SECP256R1())
        listed: list[x509.GeneralName] = [x509.DNSName(self.name)]
        listed += [x509.IPAddress(ipaddress.ip_address(at)) for at in addresses]
        begins = now() - BACK
        made = (
            x509.CertificateBuilder()
            .subject_name(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, self.name)]))
            .issuer_name(self.certificate.subject)
            .public_key(key.public_key())
            .serial_number(x509.random_serial_number())
            .not_valid_before(begins)
            .not_valid_after(min(begins + datetime.timedelta(days=LEAF_DAYS), self.certificate.not_valid_after_utc))
            .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
            .add_extension(usage(signs=False), critical=True)
            .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
            .add_extension(x509.SubjectAlternativeName(listed), critical=False)
            .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
            .add_extension(
                x509.AuthorityKeyIdentifier.from_issuer_public_key(self.certificate.public_key()),  # type: ignore[arg-type]
                critical=False,
            )
            .sign(self.key, hashes.SHA256())
        )
        keep(self.folder / LEAF_KEY, pem(key))
        keep(self.folder / LEAF, made.public_bytes(serialization.Encoding.PEM))


def pem(key: ec.EllipticCurvePrivateKey) -> bytes:
    encoding, form = serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8
    return key.private_bytes(encoding, form, serialization.NoEncryption())


def usage(signs: bool) -> x509.KeyUsage:
    """What a key is for: to sign certificates, or to prove who answers."""
    return x509.KeyUsage(
        digital_signature=not signs, content_commitment=False, key_encipherment=False, data_encipherment=False,
        key_agreement=False, key_cert_sign=signs, crl_sign=signs, encipher_only=False, decipher_only=False,
    )  # fmt: skip
