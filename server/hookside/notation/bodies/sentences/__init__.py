"""A round told in sentences, without the names of stitches: "one in the first, two in the next, and so on all the way".

`flat` puts its words into the few that `grammar` knows, `saying` reads them one after the other, `readings` writes each
meaning they may have as a body, which is read as any other; only arithmetic says which of them it is.
"""
