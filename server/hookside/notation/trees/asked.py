"""What is asked of a tree again and again, as each of a thousand courses of one body asks it: found once."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from hookside.notation.trees.nodes import GROUPS, Choice, Node, Tree

_Answer = TypeVar("_Answer")


def once(ask: Callable[[Tree], _Answer]) -> Callable[[Tree], _Answer]:
    """Keeps what was found with the tree. Not for what is asked while numbers of it are tried (`findings/mending`)."""
    name = f"{ask.__module__}.{ask.__qualname__}"

    def asked(tree: Tree) -> _Answer:
        if name not in tree.known:
            tree.known[name] = ask(tree)
        answer: _Answer = tree.known[name]
        return answer

    asked.__doc__ = ask.__doc__
    return asked


def walk(nodes: list[Node]) -> list[Node]:
    """All nodes, those in brackets and those of every meaning among them."""
    out: list[Node] = []
    stack = list(nodes)
    while stack:
        node = stack.pop()
        out.append(node)
        if isinstance(node, Choice):
            for option in node.options:
                stack.extend(option)
        elif isinstance(node, GROUPS):
            stack.extend(node.body)
    return out


@once
def every(tree: Tree) -> list[Node]:
    """All nodes of a tree."""
    return walk(tree.items)
