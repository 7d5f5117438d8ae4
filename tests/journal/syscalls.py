"""Watches the system calls of a child process through ptrace(2), with nothing but Python.

    python syscalls.py COMMAND...    runs it, and prints its writes and syncs as JSON: [[name, file], ...]

A process of its own, because a tracer waits for every child it has.
PTRACE_GET_SYSCALL_INFO (Linux 5.3) tells calls the same way on every machine; only their numbers differ
(man 2 ptrace; asm/unistd.h of the two machines).
"""

from __future__ import annotations

import ctypes
import json
import os
import platform
import signal
import sys
from dataclasses import dataclass

NUMBERS = {
    "x86_64": {1: "write", 18: "pwrite64", 20: "writev", 74: "fsync", 75: "fdatasync", 296: "pwritev"},
    "aarch64": {64: "write", 68: "pwrite64", 66: "writev", 82: "fsync", 83: "fdatasync", 70: "pwritev"},
}
TRACEME, SYSCALL, SETOPTIONS, GET_SYSCALL_INFO = 0, 24, 0x4200, 0x420E
# TRACESYSGOOD, TRACEFORK, TRACEVFORK, TRACECLONE, EXITKILL
OPTIONS = 0x1 | 0x2 | 0x4 | 0x8 | 0x100000
ENTRY, EXIT = 1, 2

libc = ctypes.CDLL(None, use_errno=True)
libc.ptrace.restype = ctypes.c_long
libc.ptrace.argtypes = [ctypes.c_long, ctypes.c_long, ctypes.c_void_p, ctypes.c_void_p]


class Info(ctypes.Structure):
    """struct ptrace_syscall_info, the part that entry and exit share."""

    _fields_ = (
        ("op", ctypes.c_uint8),
        ("pad", ctypes.c_uint8 * 3),
        ("arch", ctypes.c_uint32),
        ("instruction", ctypes.c_uint64),
        ("stack", ctypes.c_uint64),
        ("values", ctypes.c_uint64 * 10),  # at entry: number, six arguments; at exit: result
    )


@dataclass(frozen=True)
class Call:
    """A call that has returned without an error, and the file it was made on."""

    name: str
    file: str


def ptrace(request: int, pid: int, address: int = 0, data: int = 0) -> int:
    result = int(libc.ptrace(request, pid, address, data))
    if result < 0:
        number = ctypes.get_errno()
        raise OSError(number, f"ptrace {request}: {os.strerror(number)}")
    return result


def watch(command: list[str]) -> list[Call]:
    """Run a command to its end; its writes and syncs in the order in which they were done."""
    names = NUMBERS[platform.machine()]
    child = os.fork()
    if child == 0:
        try:
            ptrace(TRACEME, 0)
            os.execv(command[0], command)
        finally:
            os._exit(127)
    _, status = os.waitpid(child, 0)
    assert os.WIFSTOPPED(status), "the child could not be traced or started"
    ptrace(SETOPTIONS, child, 0, OPTIONS)
    ptrace(SYSCALL, child)
    calls: list[Call] = []
    entered: dict[int, Call] = {}
    info = Info()
    while True:
        pid, status = os.waitpid(-1, 0x40000000)  # __WALL: threads too
        if os.WIFEXITED(status) or os.WIFSIGNALED(status):
            if pid == child:
                assert status == 0, f"the child ended with {status}"
                return calls
            continue
        stop = os.WSTOPSIG(status)
        if stop == signal.SIGTRAP | 0x80:
            ptrace(GET_SYSCALL_INFO, pid, ctypes.sizeof(info), ctypes.addressof(info))
            if info.op == ENTRY and info.values[0] in names:
                entered[pid] = Call(names[info.values[0]], _file(pid, info.values[1]))
            elif info.op == EXIT and pid in entered:
                call = entered.pop(pid)
                if ctypes.c_int64(info.values[0]).value >= 0:
                    calls.append(call)
            stop = 0
        elif stop in (signal.SIGTRAP, signal.SIGSTOP):
            stop = 0  # the tracer's own: a new thread or process, or what it did
        ptrace(SYSCALL, pid, 0, stop)


def _file(pid: int, descriptor: int) -> str:
    try:
        return os.readlink(f"/proc/{pid}/fd/{descriptor}")
    except OSError:
        return ""


if __name__ == "__main__":
    print(json.dumps([[call.name, call.file] for call in watch(sys.argv[1:])]))
