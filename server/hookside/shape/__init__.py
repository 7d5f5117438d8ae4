"""Pattern and gauge to outline, openings, size, yarn and stuffing. Every figure says how sure it is.

`measure.measure` does the whole of it and brings the numerical libraries; what stands here needs none, so that whoever
asks only for a gauge or an opening does not wait for them.
"""

from hookside.shape.asked import Asked
from hookside.shape.errors import CannotBeMeasured
from hookside.shape.measures import Measures, PieceMeasures, Spread

__all__ = ["Asked", "CannotBeMeasured", "Measures", "PieceMeasures", "Spread"]
