import { describe, expect, test } from "vitest";
import { locate } from "../../follow/place";
import { cueAhead, cueName, lastCourse, moreThan, placeLines, placeSentence, plainRun, printedOtherwise, saidFor, sentences, whenNow, whisperText, widestPlace } from "./place";
import { dec, inc, repeat, sc, strandOf, words } from "./course.fixture";
import { typedBelow } from "./notes";
import { moveSaid, refusalSentence } from "./said";
import { goesOn, type Seen, welcome, whispersBehind } from "./seen";
import { costOf, coursesBehind, lastRepeat, stepAtStitch, stepBehind, undoing } from "./ways";

const strand = strandOf(
  { label: "1", body: [sc(6)] },
  { label: "2", body: [repeat(6, inc())], then: ["colour", "pause"] },
  { label: "3", body: [repeat(6, sc(1), inc())] },
  { label: "4", body: [sc(18)], then: ["stuff", "stop"] },
  { label: "5", text: "Work the ridge as in the photo." },
  { label: "6", body: [repeat(2, repeat(3, sc(2), inc()), dec())] },
);
const [one, two, three, four, , six] = strand.courses;
if (!one || !two || !three || !four || !six) throw new Error("six courses were told");

test("a round that the maker mended is called so, and is no misprint", () => {
  expect(printedOtherwise({ declared: 24, makes: 25 })).toBe("24 are printed, 25 add up");
  expect(printedOtherwise({ declared: 24, makes: 25 }, true)).toBe("as you mended it: 25, where 24 are printed");
  expect(printedOtherwise({ declared: 24, makes: 24 }, true)).toBe("as you mended it");
  expect(printedOtherwise({ declared: 24, makes: 24 })).toBeNull();
});

test("a chain that leads in is what was done, and not the round behind it", () => {
  const chain = { ...sc(1), stitch: "ch", uses: 0, makes: 0, words: words("ch 1") };
  const led = strandOf({ label: "1", body: [sc(30)] }, { label: "2", body: [chain, sc(30)] });
  const laid = { ...led, courses: led.courses.map((course) => ({ ...course, uses: 30 })) };
  expect(moveSaid(laid, 30, 31)).toBe("Ch 1 done");
  expect(moveSaid(laid, 31, 32)).toBe("Stitch 1 done");
});

test("a part whose rounds go on from the last one keeps its loop, unless it was cut", () => {
  const head = strandOf({ label: "6", body: [sc(18)] });
  const next = { ...head, courses: head.courses.map((course) => ({ ...course, id: "head.6", uses: 18 })) };
  const body = strandOf({ label: "5", body: [sc(18)] });
  expect(goesOn(body, next)?.label).toBe("6");
  expect(goesOn(body, head)).toBeNull(); // it begins from nothing
  expect(goesOn(strandOf({ label: "5", body: [sc(12)] }), next)).toBeNull();
  expect(goesOn(strandOf({ label: "4", body: [sc(18)] }), next)).toBeNull();
  expect(goesOn(strandOf({ label: "5", body: [sc(18)], then: ["fasten", "stop"] }), next)).toBeNull();
  expect(goesOn(strandOf({ label: "5", body: [sc(18)], then: ["stuff", "stop"] }), next)?.label).toBe("6");
});

test("gone past a count, nothing says that it was made", () => {
  const asked = strandOf({ label: "1", body: [sc(6)], then: ["count", "pause"] }, { label: "2", body: [sc(6)] });
  expect(moveSaid(asked, 6, 7)).toBe("Gone on");
  expect(moveSaid(strand, two.end, two.end + 1)).toBe("Colour: done");
});

test("a job between two rounds is named with both of them", () => {
  const cue = { kind: "eyes" as const, text: "", words: words("Eyes between R6 and R7, 6 st apart.") };
  expect(cueName(cue, "US")).toBe("eyes between R6 and R7");
});

describe("the place in words", () => {
  test("repeat and stitch", () => {
    const spot = locate(strand, three.first + 7);
    expect(placeLines(spot, three)).toEqual(["repeat 3 of 6", "7 of 18 made"]);
    expect(placeSentence(spot, three)).toBe("Round 3, repeat 3 of 6, 7 of 18 made");
    expect(widestPlace(spot, three)).toEqual(["repeat 4 of 6", "44 of 18 made"]);
  });

  test("a run of plain rounds", () => {
    const plain = { ...four, plain_index: 2, plain_of: 4, plain_from: "9", plain_to: "12" };
    expect(plainRun(plain)).toEqual(["plain round 2 of 4", "rounds 9 to 12"]);
    expect(placeSentence(locate(strand, four.first), plain)).toBe(
      "Round 4, plain round 2 of 4, rounds 9 to 12, 18 to make",
    );
    expect(plainRun({ ...plain, plain_of: 1 })).toBeNull();
  });

  test("a repeat in a repeat", () => {
    expect(placeLines(locate(strand, six.first + 4), six)).toEqual(["repeat 1 of 2", "in it 2 of 3", "4 of 26 made"]);
  });

  test("what comes, with its distance", () => {
    const ahead = (at: number) => cueAhead(locate(strand, at), strand);
    expect(ahead(0)).toBe("in 2 rounds: colour");
    expect(ahead(two.first + 2)).toBe("after this round: colour");
    expect(ahead(three.first)).toBe("in 2 rounds: stuff");
    expect(ahead(six.first)).toBeNull();
    // A cue before the last stitch of the round that follows is not "after this round".
    const [pause] = strand.cues;
    if (!pause) throw new Error("a pause was told");
    const within = { ...strand, cues: [{ ...pause, step: two.end - 1 }] };
    within.courses = strand.courses.map((c, i) => (i === 1 ? { ...c, end: c.end + 1 } : c));
    expect(cueAhead(locate(within, 2), within)).toBe("in the next round: colour");
    // "This round" of a cue is the one that it stands before.
    const loops = { ...strand, cues: [{ ...pause, text: "", words: words("Back loops only in this round") }] };
    expect(cueAhead(locate(loops, 0), loops)).toBe("in 2 rounds: back loops only");
    expect(cueAhead(locate(loops, two.first + 2), loops)).toBe("in the next round: back loops only");
    // Its own words are the name; where they are long, its kind is, in the maker's terms.
    const own = (short: string) => cueName({ ...pause, words: words(short) }, "US");
    expect(own("Change to color B")).toBe("change to color B");
    expect(own("Stuff firmly now")).toBe("stuff firmly");
    expect(own("Rnd 9 again")).toBe("rnd 9 again");
    expect(own("Change to the yarn that lies nearest to the sea")).toBe("change color");
    expect(own("Keep this loop, or cut the yarn?")).toBe("keep this loop, or cut the yarn?"); // half of it is an order
    expect(cueName({ ...pause, text: "", words: words("") }, "UK")).toBe("change colour");
  });

  test("the course before, typed counts included", () => {
    expect(lastCourse(strand.courses, 1, {})).toBe("Round 1 made 6");
    expect(lastCourse(strand.courses, 5, {})).toBe("Round 5 is done");
    expect(lastCourse(strand.courses, 5, { "buoy.5": 20 })).toBe("Round 5 made 20");
    expect(lastCourse(strand.courses, 0, {})).toBeNull();
  });

  test("a count she typed that the round in hand does not take up is said", () => {
    const next = { ...six, uses: 20 };
    const courses = [...strand.courses.slice(0, 5), next];
    const said = (n: number) => lastCourse(courses, 5, { "buoy.5": n });
    expect(said(20)).toBe("Round 5 made 20");
    expect(said(21)).toBe("Round 5 made 21, this takes up 20: 1 is left over");
    expect(said(18)).toBe("Round 5 made 18, this takes up 20: 2 are missing");
    const seen = { course: next, spot: { course: 5, stitch: 0 }, strand: { ...strand, courses }, counts: { "buoy.5": 21 } } as unknown as Seen;
    expect(typedBelow(seen).map(whisperText)).toEqual(["21 are there, round 6 takes 20: 1 is left over"]);
    expect(typedBelow({ ...seen, counts: { "buoy.5": 20 } })).toEqual([]);
    // Printed, and the next one is known to take another number: that is as the text has it.
    const printed = courses.map((course) => (course.id === "buoy.5" ? { ...course, declared: 24 } : course));
    expect(typedBelow({ ...seen, strand: { ...strand, courses: printed } })).toEqual([]);
  });

  test("a cue's words are not said twice", () => {
    expect(moreThan("Fasten off", "Fasten off.")).toBe("");
    expect(moreThan("Stuff the body now", "Stuff the body now. From here on it is harder to reach.")).toBe("From here on it is harder to reach.");
    expect(moreThan("Pin the seats", "Pin the seats, level with round 9.")).toBe("Level with round 9.");
    expect(moreThan("Pin them at stitches 8", "Pin them at stitches 8, 18 and 28.")).toBe("Pin them at stitches 8, 18 and 28.");
    expect(moreThan("Stuff now", "Stuff it well. The opening is soon too small.")).not.toBe("");
  });
});

describe("what was said in passing", () => {
  test("only the whispers directly behind the place, in order", () => {
    const [pause] = strand.cues;
    if (!pause) throw new Error("a pause was told");
    const cue = (step: number, weight: "whisper" | "pause") => ({ ...pause, address: `c${step}`, step, weight });
    const cues = [cue(2, "whisper"), cue(5, "pause"), cue(6, "whisper"), cue(7, "whisper"), cue(9, "whisper")];
    const behind = (at: number) => whispersBehind({ strand: { ...strand, cues }, at } as Seen).map((c) => c.address);
    expect(behind(8)).toEqual(["c6", "c7"]);
    expect(behind(3)).toEqual(["c2"]);
    expect(behind(4)).toEqual([]);
    expect(behind(6)).toEqual([]);
    expect(behind(10)).toEqual(["c9"]);
  });

  test("when something that waits is due", () => {
    expect(whenNow(locate(strand, four.end), strand.courses)).toBe("Round 4 is done.");
    expect(whenNow(locate(strand, four.first + 3), strand.courses)).toBe("In round 4, after stitch 3.");
    expect(whenNow({ ...locate(strand, 0), course: null }, [])).toBe(""); // a section has no stitch to be before
    expect(whenNow(locate(strand, 0), strand.courses)).toBe("Before the first stitch.");
  });
});

describe("the last move in words", () => {
  test("repeats, rounds, groups, stitches, cues", () => {
    expect(moveSaid(strand, three.first + 3, three.first + 6)).toBe("Repeat 2 done");
    expect(moveSaid(strand, 0, 6)).toBe("Round 1 done");
    expect(moveSaid(strand, four.first, four.end)).toBe("Round 4 done");
    expect(moveSaid(strand, six.first, six.first + 2)).toBe("2 sc done");
    expect(moveSaid(strand, four.first, four.first + 1)).toBe("Stitch 1 done");
    expect(moveSaid(strand, four.end, four.end + 1)).toBe("Stuff: done");
  });

  test("ways back", () => {
    expect(moveSaid(strand, three.first + 9, three.first + 3)).toBe("Back 6 stitches");
    expect(moveSaid(strand, three.first, 2)).toBe("Back in round 1");
  });

  test("every refusal is a sentence that says what to do", () => {
    for (const code of ["stop", "finished", "start", "not-here", "range", "not-last", "no-run", "needs-count", "unit"])
      expect(refusalSentence(code)).toMatch(/^[A-Z].*\.$/);
  });
});

describe("ways to another place", () => {
  test("by stitches made", () => {
    expect(stepAtStitch(strand, three, 0)).toBe(three.first);
    expect(stepAtStitch(strand, three, 7)).toBe(three.first + 7);
    expect(stepAtStitch(strand, three, 18)).toBe(three.end);
  });

  test("back by stitches, over cues and course ends", () => {
    expect(stepBehind(strand, four.first + 3, 3)).toBe(four.first);
    expect(stepBehind(strand, three.first + 1, 3)).toBe(two.end - 2);
    expect(stepBehind(strand, 4, 9)).toBe(0);
  });

  test("to the last repeat: the present one, or the one before where none of it is worked", () => {
    expect(lastRepeat(strand, three.first + 7)).toBe(three.first + 6);
    expect(lastRepeat(strand, three.first + 6)).toBe(three.first + 3);
    expect(lastRepeat(strand, three.first)).toBeNull();
    expect(lastRepeat(strand, four.first + 3)).toBeNull();
  });

  test("what ripping costs: stitches, and the cues that wait again", () => {
    const cost = costOf(strand, four.end + 1, three.first + 9);
    expect(cost.stitches).toBe(27);
    expect(cost.reopened.map((c) => c.kind)).toEqual(["stuff"]);
    expect(costOf(strand, four.end, 0).reopened.map((c) => c.kind)).toEqual(["colour"]);
    const [colour, stuff] = strand.cues;
    expect(stuff && undoing(stuff, "US")).toBe("stuffing out first");
    expect(colour && undoing(colour, "UK")).toContain("join the colour before it");
    expect(undoing({ kind: "fasten", text: "Fasten off, leaving a 20 cm tail." }, "US")).toContain("the yarn is cut here");
    expect(coursesBehind(strand, three.first + 1).map((c) => c.label)).toEqual(["3", "2", "1"]);
  });
});

test("a printed count that differs is shown beside ours", () => {
  expect(printedOtherwise({ declared: 32, makes: 30 })).toBe("32 are printed, 30 add up");
  expect(printedOtherwise({ declared: 30, makes: 30 })).toBeNull();
  expect(printedOtherwise({ declared: null, makes: 30 })).toBeNull();
});

describe("said in passing", () => {
  const cue = (text: string, full = text) => ({ address: "b/x", step: 0, kind: "other", text, basis: "written", weight: "whisper", words: words(text, full) }) as const;

  test("one after another, each with one stop", () => {
    expect(sentences(["Round 3, 18 to make", "Count now: 18 in round 3.", ""])).toBe("Round 3, 18 to make. Count now: 18 in round 3.");
  });

  test("what was cut to a few words is said whole", () => {
    expect(whisperText(cue("Count 6 back from the …", "Count 6 back from the hook."))).toBe("Count 6 back from the hook.");
    expect(whisperText(cue("Count now"))).toBe("Count now");
  });

  test("a designer's own words about a marker stay, but for moving it up", () => {
    const marker = (text: string) => whisperText({ ...cue(text), kind: "marker" });
    expect(marker("Move the marker up.")).toBe("Make 1 stitch, marker into it");
    expect(whisperText({ ...cue("Work the first stitch of round 4, then ..."), kind: "marker", basis: "worked out" })).toBe("Make 1 stitch, marker into it");
    expect(marker("Remove the marker")).toBe("Remove the marker");
    expect(marker("Place a marker in the st just made")).toBe("Place a marker in the st just made");
  });

  test("a word for a first time comes with full words, and with short ones where it is new", () => {
    const first = { ...cue("Both go into one stitch"), address: "b.2/learn-inc.0" };
    const had = (words: "short" | "full", isNew?: () => boolean) => welcome([first], { quiet: [], words }, isNew);
    expect([had("full"), had("short"), had("short", () => true)]).toEqual([[first], [], [first]]);
  });

  test("what was printed after its time and asked before is no job again", () => {
    const eyes = cue("Eyes in", "Put the eyes in. Printed here; it was due at round 9.");
    const sew = cue("Sew on", "Sew the wings on.");
    expect(welcome([eyes, sew], { quiet: [], words: "full" })).toEqual([sew]);
  });
});

test("what is to be done stands large, why it was worked out small", () => {
  expect(saidFor("Stuff the head now. Worked out, because it narrows to 2.6 cm at round 9. First: is the starting tail inside?")).toEqual([
    "Stuff the head now. First: is the starting tail inside?",
    "Worked out, because it narrows to 2.6 cm at round 9.",
  ]);
  expect(saidFor("Eyes in. Printed in line 26. Worked out, because there it is shut.")).toEqual(["Eyes in.", "Printed in line 26. Worked out, because there it is shut."]);
  expect(saidFor("Fasten off. Printed in line 9.")).toEqual(["Fasten off. Printed in line 9.", ""]);
});
