"""A copy of a tree or a stretch of it that may be changed, the first left as it is."""

from __future__ import annotations

from copy import copy

from hookside.notation.trees.nodes import GROUPS, Choice, Node, Tree


class _Copies:
    """What stands in several places as the same one, as a choice in the tree and in its list, stays the same one."""

    def __init__(self) -> None:
        self.made: dict[int, Node] = {}

    def nodes(self, nodes: list[Node]) -> list[Node]:
        return [self.node(node) for node in nodes]

    def node(self, node: Node) -> Node:
        if id(node) in self.made:
            return self.made[id(node)]
        new = self.made[id(node)] = copy(node)
        if isinstance(new, Choice):
            new.options = [self.nodes(option) for option in new.options]
        elif isinstance(new, GROUPS):
            new.body = self.nodes(new.body)
        return new


def copied(nodes: list[Node]) -> list[Node]:
    return _Copies().nodes(nodes)


def copy_of(tree: Tree) -> Tree:
    copies = _Copies()
    items = copies.nodes(tree.items)
    choices = [node for node in copies.nodes([*tree.choices]) if isinstance(node, Choice)]
    return Tree(items, choices, tree.failed)
