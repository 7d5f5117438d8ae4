"""What the last two stages made of a text, for looking on: the sums of each course, and what is said of it."""

from __future__ import annotations

from hookside.notation.courses.meanings import meaning
from hookside.notation.courses.sheet import Account, Sheet, Stage
from hookside.pattern import Finding


def sums(account: Account) -> str:
    """ "18 there; uses 15, makes 20; 24 printed; does not come out; 9 readings tried"."""
    ground, taken, course = account.ground, account.taken, account.course
    there = f"chain of {ground.chain} there" if ground.chain else "nothing known there"
    parts = [there if ground.there is None else f"{ground.there} there"]
    if taken is None:
        makes = course.makes if course is not None else None
        return "; ".join([*parts, f"not read: {account.todo.failed or 'chains'}", f"makes {makes}"])
    reading = taken.reading
    spaces = f", {reading.spaces} chain spaces" if reading.spaces else ""
    parts.append(f"uses {reading.uses}, makes {reading.makes}{spaces}")
    if ground.declared is not None:
        parts.append(f"{ground.declared} printed")
    if ground.free:
        parts.append("what is left over is not counted")
    parts.append("comes out" if taken.fits else "does not come out")
    if taken.why:
        parts.append(f"taken as {meaning(taken.why[0])}")
    if taken.others or not taken.fits:
        tried = f"{len(taken.others) + 1} readings tried" if taken.others else "one reading tried"
        parts.append(tried + (", not all there are" if taken.bounded else ""))
    return "; ".join(parts)


def last_stages(sheet: Sheet, findings: list[Finding]) -> list[Stage]:
    """One line for each course on what the one below it makes, then one for each finding."""
    seen = []
    for account in sheet.accounts:
        todo, course = account.todo, account.course
        line = sheet.page.line(todo.at)
        label = course.label if course is not None else "chains"
        seen.append(Stage("arithmetic", line, f"{account.piece.name} {label}", sums(account)))
    seen += [Stage("finding", f.line, f"{f.severity} {f.code}", f.message) for f in findings]
    return seen
