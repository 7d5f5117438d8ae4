"""Miscounts, lost places, ripping back: questions, answers, and what is offered. Pure: no clock, disk or network."""
