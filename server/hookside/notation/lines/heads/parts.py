"""What parts of soft toys, boats and clothes are called: a heading of such a word names a piece."""

from __future__ import annotations

PARTS = frozenset(
    [
        "head", "body", "arm", "arms", "leg", "legs", "ear", "ears", "tail", "wing", "wings", "fin", "fins", "foot",
        "feet", "beak", "snout", "muzzle", "nose", "neck", "hat", "scarf", "base", "top", "bottom", "side", "sides",
        "front", "back", "eye", "eyes", "horn", "horns", "antenna", "antennae", "hand", "hands", "paw", "paws",
        "flipper", "flippers", "hair", "mane", "spike", "spikes", "shell", "leaf", "leaves", "petal", "petals",
        "stem", "flower", "cap", "hull", "sail", "mast", "deck", "buoy", "boat", "pennant", "frond", "kelp", "gull",
        "underside", "wall", "walls", "tyre", "tyres", "hub", "hubs",
        "seal", "float", "keel", "cabin", "funnel", "window", "lid", "ring", "band", "strap", "handle", "cheek",
        "cheeks", "belly", "tummy", "fluke", "flukes", "tentacle", "tentacles", "claw", "claws", "bow", "collar",
        "button", "wheel", "wheels", "rope", "anchor", "stripe", "panel", "square", "circle", "crest", "bill",
        "webbed", "thumb", "spout", "stand", "lighthouse", "lantern", "roof", "door", "dome", "gallery", "tower",
        "rock", "barnacle", "starfish", "star", "point", "points", "centre", "center", "upper", "lower",
        "body/head", "head/body", "main", "rim", "brim", "crown", "post", "pole", "tip", "boom", "rudder", "oar",
        "oars", "bollard", "net", "whisker", "whiskers", "breast", "chest", "leg1", "leg2", "pom", "loop", "knob",
        "patch", "patches", "spot", "spots", "cover", "flag", "flags", "wave", "waves", "pier", "jetty", "chimney",
        "helm", "bell", "lamp", "light", "bulb", "ball", "barrel", "crate", "disc", "disk", "oval", "strip",
        "lining", "pocket", "peak", "visor", "earflap", "earflaps", "skirt", "dress", "shirt", "sleeve", "sleeves",
        "trousers", "boot", "boots", "shoe", "shoes", "sock", "socks", "jaw", "mouth", "tongue", "tooth", "teeth",
        "fang", "eyelid", "eyelids", "brow", "brows", "spine", "fringe", "tassel", "cord", "tie", "ties", "link",
        "chainlink", "bag", "pouch", "mat", "coaster", "cloth", "blanket", "border", "edge", "edging",
        "flap", "bump", "bumps", "yoke", "abdomen", "thorax", "torso", "trunk", "pincer", "pincers", "hump", "humps",
        "cup", "flask", "housing", "tube", "cloud", "puff", "drop", "drops", "hood", "cuff", "cuffs", "heel", "toe",
        "sole", "glove", "finger", "fingers", "feather", "feathers", "comb", "wattle", "udder", "hoof", "hooves",
        "tusk", "tusks", "gill", "gills", "feeler", "feelers", "proboscis", "pedestal", "plate", "letter", "apron",
        "coat", "label", "basket", "saddle", "bridle", "blade", "hilt", "bucket", "saucer", "cushion", "flame",
        "beard", "moustache", "pants", "jacket", "vest", "cape", "belt", "slipper", "slippers", "antler", "antlers",
        "string", "strings",
    ]
)
# What every toy has
MAIN_PARTS = frozenset(["head", "body", "leg", "legs", "arm", "arms", "ear", "ears", "tail", "wing", "wings"])


def is_part(word: str) -> bool:
    """Is a word in small letters the name of a part, or of several?"""
    return word in PARTS or word.removesuffix("s") in PARTS
