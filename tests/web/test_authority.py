"""The household authority, looked at with the OpenSSL of Python: another hand than the one that made it."""

from __future__ import annotations

import datetime
import ipaddress
import ssl
from contextlib import suppress
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization

from hookside.web.keep import private_folder
from hookside.web.tls import authority as room
from hookside.web.tls.authority import CERTIFICATE, KEY, LEAF, LEAF_KEY, Authority, Unusable, private

NAME = "hookside-kelp.local"  # demo


def made(folder: Path, *addresses: str) -> Authority:
    private_folder(folder)
    authority = Authority(folder, NAME)
    authority.leaf(addresses or ("192.168.1.20",))
    return authority


def leaf_of(folder: Path) -> x509.Certificate:
    return x509.load_pem_x509_certificate((folder / LEAF).read_bytes())


def verdict(folder: Path, leaf: Path, name: str) -> str:
    """What OpenSSL says to a client that trusts the authority and meets this leaf under that name; "" where it is
    content."""
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(leaf, folder / LEAF_KEY)
    client = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    client.load_verify_locations(folder / CERTIFICATE)
    client.verify_flags |= ssl.VERIFY_X509_STRICT
    to_client, to_server = ssl.MemoryBIO(), ssl.MemoryBIO()
    ends = (
        client.wrap_bio(to_client, to_server, server_hostname=name),
        server.wrap_bio(to_server, to_client, server_side=True),
    )
    try:
        for end in ends * 3:
            with suppress(ssl.SSLWantReadError):
                end.do_handshake()
    except ssl.SSLCertVerificationError as e:
        return e.verify_message
    assert ends[0].version() in ("TLSv1.2", "TLSv1.3")
    return ""


@pytest.mark.parametrize("name", ["192.168.1.20", "10.0.0.7", NAME])
def test_openssl_agrees(tmp_path: Path, name: str) -> None:
    made(tmp_path, "192.168.1.20", "10.0.0.7")
    assert verdict(tmp_path, tmp_path / LEAF, name) == ""
    assert "mismatch" in verdict(tmp_path, tmp_path / LEAF, "10.0.0.8")


def forged(folder: Path, subject: x509.GeneralName) -> Path:
    """A leaf as a thief of the authority's key would make it for a name outside."""
    authority = Authority(folder, NAME)
    original = leaf_of(folder)
    names = x509.SubjectAlternativeName([subject])
    builder = x509.CertificateBuilder().subject_name(original.subject).issuer_name(authority.certificate.subject)
    builder = builder.public_key(original.public_key()).serial_number(7)
    builder = builder.not_valid_before(original.not_valid_before_utc).not_valid_after(original.not_valid_after_utc)
    for extension in original.extensions:
        value = names if isinstance(extension.value, x509.SubjectAlternativeName) else extension.value
        builder = builder.add_extension(value, extension.critical)
    path = folder / "forged.crt"
    path.write_bytes(builder.sign(authority.key, hashes.SHA256()).public_bytes(serialization.Encoding.PEM))
    return path


@pytest.mark.parametrize(
    "subject",
    [
        x509.DNSName("bank.example"), x509.DNSName("printer.local"), x509.DNSName("localhost"),
        x509.IPAddress(ipaddress.ip_address("93.184.216.34")),
        x509.IPAddress(ipaddress.ip_address("2606:2800:220:1::1")),
    ],
    ids=["internet", "another-name", "localhost", "internet-v4", "internet-v6"],
)  # fmt: skip
def test_it_can_vouch_for_nothing_outside_the_house(tmp_path: Path, subject: x509.GeneralName) -> None:
    made(tmp_path)
    told = verdict(tmp_path, forged(tmp_path, subject), str(subject.value))
    assert told == "permitted subtree violation"


def test_what_phones_ask_of_a_leaf(tmp_path: Path) -> None:
    # Apple, "Requirements for trusted certificates in iOS 13 and macOS 10.15" (103769): names, purpose, length, hash.
    made(tmp_path, "192.168.1.20", "10.0.0.7")
    leaf = leaf_of(tmp_path)
    names = leaf.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    assert [str(at) for at in names.get_values_for_type(x509.IPAddress)] == ["192.168.1.20", "10.0.0.7"]
    assert names.get_values_for_type(x509.DNSName) == [NAME]
    purpose = leaf.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert [use.dotted_string for use in purpose] == ["1.3.6.1.5.5.7.3.1"]  # serverAuth, RFC 5280, 4.2.1.12
    assert leaf.not_valid_after_utc - leaf.not_valid_before_utc < datetime.timedelta(days=398)
    assert leaf.signature_hash_algorithm is not None
    assert leaf.signature_hash_algorithm.name == "sha256"


def test_keys_are_for_this_user_alone(tmp_path: Path) -> None:
    made(tmp_path / "doors")
    assert (tmp_path / "doors").stat().st_mode & 0o777 == 0o700
    for name in (KEY, LEAF_KEY, CERTIFICATE, LEAF):
        assert (tmp_path / "doors" / name).stat().st_mode & 0o777 == 0o600


def test_the_authority_stays_and_the_leaf_changes_with_the_address(tmp_path: Path) -> None:
    first = made(tmp_path)
    serial = leaf_of(tmp_path).serial_number
    again = made(tmp_path)
    assert again.file == first.file
    assert leaf_of(tmp_path).serial_number == serial
    moved = made(tmp_path, "10.0.0.7")
    assert moved.file == first.file
    assert leaf_of(tmp_path).serial_number != serial


def test_a_leaf_near_its_end_is_made_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made(tmp_path)
    serial, ends = leaf_of(tmp_path).serial_number, leaf_of(tmp_path).not_valid_after_utc
    monkeypatch.setattr(room, "now", lambda: ends - datetime.timedelta(days=61))
    made(tmp_path)
    assert leaf_of(tmp_path).serial_number == serial
    monkeypatch.setattr(room, "now", lambda: ends - datetime.timedelta(days=59))
    made(tmp_path)
    assert leaf_of(tmp_path).serial_number != serial
    assert leaf_of(tmp_path).not_valid_after_utc > ends


@pytest.mark.parametrize(("name", "content"), [(KEY, b""), (CERTIFICATE, b"gull"), (KEY, None), (CERTIFICATE, None)])
def test_a_damaged_authority_is_said_and_not_made_over(tmp_path: Path, name: str, content: bytes | None) -> None:
    made(tmp_path)
    if content is None:
        (tmp_path / name).unlink()
    else:
        (tmp_path / name).write_bytes(content)
    with pytest.raises(Unusable, match=r"remove authority\.key and authority\.crt"):
        Authority(tmp_path, NAME)


def test_a_key_of_another_authority_is_said(tmp_path: Path) -> None:
    made(tmp_path / "ours")
    made(tmp_path / "theirs")
    (tmp_path / "ours" / KEY).write_bytes((tmp_path / "theirs" / KEY).read_bytes())
    with pytest.raises(Unusable):
        Authority(tmp_path / "ours", NAME)


@pytest.mark.parametrize("file", [LEAF, LEAF_KEY])
def test_a_damaged_leaf_is_made_anew(tmp_path: Path, file: str) -> None:
    made(tmp_path)
    (tmp_path / file).write_bytes(b"gull")
    made(tmp_path)
    assert verdict(tmp_path, tmp_path / LEAF, "192.168.1.20") == ""


def test_only_todays_tls(tmp_path: Path) -> None:
    assert made(tmp_path).leaf(["192.168.1.20"]).minimum_version == ssl.TLSVersion.TLSv1_2


@pytest.mark.parametrize(
    ("address", "ours"),
    [
        # RFC 1918, 3927, 4193, 4291; RFC 5737 and 6598 are not addresses of a house.
        ("10.255.255.255", True), ("172.16.0.1", True), ("172.31.255.254", True), ("192.168.0.1", True),
        ("169.254.3.4", True), ("127.0.0.1", True), ("fd12::1", True), ("fe80::1", True),
        ("172.32.0.1", False), ("11.0.0.1", False), ("8.8.8.8", False), ("192.0.2.2", False), ("100.64.0.1", False),
        ("2001:db8::1", False), ("0.0.0.0", False),
    ],
)  # fmt: skip
def test_addresses_of_a_house(address: str, ours: bool) -> None:
    assert private(address) is ours
