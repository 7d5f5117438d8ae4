"""What is left when every part is worked: pin, look from the front, sew, see to the ends, block what is flat.

Pure: a pattern as it was read, with its cues, gives one list in the order of the hands.
"""

from hookside.finish.item import FinishItem
from hookside.finish.left import answered, left, passed_by
from hookside.finish.listing import finish_list

__all__ = ["FinishItem", "answered", "finish_list", "left", "passed_by"]
