"""How this maker works what the text leaves open: decreases invisible or plain, joined rounds as a spiral.

A habit changes the steps of a piece and never its counts. Where the work does not allow it the piece stays as it is
written, and a sentence says why.
"""

from hookside.habits.allowed import Allowed, Decreases, Habits, habits, worked

__all__ = ["Allowed", "Decreases", "Habits", "habits", "worked"]
