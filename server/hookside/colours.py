"""The everyday names of colours, as patterns write them."""

from __future__ import annotations

COLOURS = frozenset(
    [
        "straw", "petrol", "chestnut", "fawn", "hazel", "ochre", "walnut", "white", "black", "red", "blue", "green",
        "yellow", "orange", "purple", "pink", "brown", "grey", "gray", "cream", "beige", "navy", "teal", "turquoise",
        "aqua", "mint", "lime", "gold", "silver", "lilac", "lavender", "violet", "magenta", "burgundy", "maroon",
        "coral", "peach", "salmon", "ivory", "tan", "camel", "caramel", "rust", "mustard", "ginger", "indigo", "cyan",
        "charcoal", "slate", "olive", "sage", "khaki", "rose", "ruby", "scarlet", "crimson", "sand", "ecru",
        "natural", "mc", "cc", "c1", "c2", "c3", "c4", "cc1", "cc2", "golden", "chocolate", "skin", "flesh",
        "copper", "bronze", "amber", "emerald", "jade", "plum", "wine", "fuchsia", "denim", "stone", "linen",
        "oatmeal", "mauve", "taupe", "cobalt", "azure", "terracotta", "apricot", "graphite", "lemon", "moss", "oat",
        "ca", "cb",
    ]
)  # fmt: skip
# What stands before such a name: "pale blue", "main colour"
SHADES = frozenset(
    [
        "light", "dark", "pale", "deep", "bright", "dusty", "soft", "sky", "off", "baby", "royal", "main", "contrast",
        "contrasting", "lt", "hot",
    ]
)  # fmt: skip
