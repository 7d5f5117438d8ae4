"""Printed counts in a dress of their own, or at a place where others print none."""
