"""Reading loses one course rather than a whole text when it falls; here every such fall is a failure."""

from hookside.notation.reader import Reader

_read = Reader.read


def _read_without_a_fall(self: Reader):
    pattern = _read(self)
    if self.sheet.fell:
        raise self.sheet.fell[0][1]
    return pattern


Reader.read = _read_without_a_fall
