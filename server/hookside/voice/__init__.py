"""Sound to what was heard: engines, endpointing, phrases, decision. Nothing of it is ever stored."""
