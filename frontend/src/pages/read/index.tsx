import "./read.css";
import { useSignal } from "@preact/signals";
import { useEffect, useMemo, useRef } from "preact/hooks";
import { meetMaker } from "../../maker";
import { go, toBench, toGather, toPaper, toRead, toShelf, toSize } from "../../route";
import { OrderOfWork, TermsRead } from "./Begin";
import { FindingRead, PieceRead } from "./Courses";
import { type Desk, openDesk } from "./desk";
import { offered } from "./mending";
import { type Added, Files, OnTheShelf } from "./Files";
import { Paper } from "./Paper";
import { gravity, inWorth, stretches, verdict } from "./sections";
import { lineRange } from "./text";

/** What is worked out from a pattern once it is on the shelf. */
const ONWARD: readonly [string, (id: string | number) => string][] = [
  ["Size, yarn, stuffing", toSize],
  ["What to have at hand", toGather],
  ["On paper", toPaper],
];

/** The read-through: the text on one side, what it means on the other, a start that is always in sight. */
export function Read({ id }: { id: string | null }) {
  const desk = useMemo(() => openDesk(id), [id]);
  const view = useSignal<"courses" | "text">(id === null ? "text" : "courses");
  const open = useSignal<string | null>(null);
  const at = useSignal(0);
  /** What is to be known of the file the text came from. */
  const noted = useSignal<string[]>([]);
  const added = useSignal<Added[]>([]);
  const area = useRef<HTMLTextAreaElement>(null);

  useEffect(() => {
    void meetMaker().then(() => desk.met());
    const keep = () => desk.keep();
    addEventListener("pagehide", keep);
    void desk.open().then(() => {
      if (id === null && !desk.text.value) area.current?.focus();
    });
    return () => {
      removeEventListener("pagehide", keep);
      desk.close();
    };
  }, [desk]);

  const pattern = desk.read.value?.pattern ?? null;
  const title = pattern?.title || (id === null ? "A new pattern" : "The pattern");
  useEffect(() => {
    document.title = `${title} · Hookside`;
  }, [title]);

  const courses = pattern?.pieces.reduce((n, p) => n + p.courses.length, 0) ?? 0;
  const rows = courses > 0 && (pattern?.pieces.every((p) => p.courses.every((c) => c.kind === "row")) ?? false);
  const broken = pattern?.findings.some((f) => gravity(f) === "error") ?? false;
  const loose = pattern?.findings.filter((f) => f.course_id === null) ?? [];
  const grave = pattern?.findings.filter((f) => f.severity !== "note") ?? [];
  const places = inWorth(grave.length ? grave : (pattern?.findings ?? []));
  const both = desk.mixture.value;
  const empty = !desk.text.value.trim();
  const last = desk.taken.value.at(-1);

  function show(line: number): void {
    view.value = "text";
    requestAnimationFrame(() => {
      const box = area.current;
      if (!box) return;
      const [from, to] = lineRange(desk.text.value, line);
      box.focus({ preventScroll: true });
      box.setSelectionRange(from, to);
      const before = box.previousElementSibling;
      if (before) box.closest(".side")?.scrollTo({ top: lineTop(before, from) - 120 });
      const top = before ? before.getBoundingClientRect().top + lineTop(before, from) : 0;
      if (getComputedStyle(box.closest(".side") as Element).overflowY === "visible") scrollBy({ top: top - 160 });
    });
  }

  // Typing must not draw every round again: they change with the reading only.
  const opened = open.value;
  const openedLine = pattern?.pieces.flatMap((p) => p.courses).find((c) => c.id === opened)?.line ?? null;
  useEffect(() => {
    area.current?.parentElement?.querySelector(".opened")?.scrollIntoView({ block: "nearest" });
  }, [opened]);
  const pieces = useMemo(
    () =>
      pattern?.pieces.map((piece, i) => (
        <PieceRead
          key={i}
          piece={piece}
          number={i + 1}
          pattern={pattern}
          desk={desk}
          open={opened}
          turn={(course) => (open.value = course)}
          show={show}
        />
      )),
    [pattern, opened, desk],
  );

  function pointed(line: number): void {
    const piece = pattern?.pieces.find((p) => p.courses.some((c) => c.line === line));
    if (!piece || !pattern) return;
    const stretch = stretches(piece, pattern.findings).stretches.find((s) => s.courses.some((c) => c.line === line));
    const course = stretch?.courses[0];
    if (!course) return;
    open.value = course.id;
    requestAnimationFrame(() => document.getElementById(`course-${course.id}`)?.scrollIntoView({ block: "nearest" }));
  }

  /** Leads from one place to look at to the next, and round again. */
  function nextPlace(): void {
    const place = places[at.value % places.length];
    at.value++;
    if (!place) return;
    view.value = "courses";
    if (place.course_id) open.value = place.course_id;
    requestAnimationFrame(() => {
      const spot = document.getElementById(place.course_id ? `course-${place.course_id}` : "loose");
      spot?.scrollIntoView({ block: "center" });
      spot?.querySelector("button")?.focus({ preventScroll: true });
    });
  }

  async function start(): Promise<void> {
    const making = await desk.start();
    if (making !== null) go(toBench(making));
  }

  async function keep(): Promise<void> {
    const on = await desk.shelve();
    if (on === null) return;
    if (String(on) === id) go(toShelf);
    else location.replace(toRead(on));
  }

  /** To a page that is worked out from the pattern on the shelf: a text that is not there yet is put there first. */
  async function onward(to: (id: string | number) => string): Promise<void> {
    const on = desk.changed.value || id === null ? await desk.shelve() : id;
    if (on === null) return;
    if (String(on) !== id) history.replaceState(null, "", toRead(on)); // so that the way back leads to what is kept
    go(to(on));
  }

  return (
    <main class={`read view-${view.value}`}>
      <header>
        <a class="word" href={toShelf}>
          Shelf
        </a>
        <div class="views" role="group" aria-label="What to look at">
          <button type="button" class="word" aria-pressed={view.value === "courses"} onClick={() => (view.value = "courses")}>
            {view.value === "text" && courses > 0 ? `${courses} ${rows ? "rows" : "rounds"}` : rows ? "Rows" : "Rounds"}
          </button>
          <button type="button" class="word" aria-pressed={view.value === "text"} onClick={() => (view.value = "text")}>
            Text
          </button>
        </div>
        {!desk.editable.value && desk.ready.value && (
          <button
            type="button"
            class="word"
            onClick={() => {
              desk.edit();
              view.value = "text";
            }}
          >
            Change it, as a copy of yours
          </button>
        )}
        {desk.found && !empty && desk.taken.value.length === 0 && (
          <button
            type="button"
            class="word"
            onClick={() =>
              void desk.anew().then((done) => {
                if (!done) return;
                view.value = "text";
                area.current?.focus();
              })
            }
          >
            A new one; this goes on the shelf
          </button>
        )}
        {desk.editable.value && desk.changed.value && (
          <button type="button" class="word" onClick={() => void keep()}>
            Keep on the shelf
          </button>
        )}
        {desk.kept.value?.source === "yours" && !desk.changed.value && <TakeOff desk={desk} />}
      </header>

      <div class="side text">
        <Files
          desk={desk}
          taken={(notes) => {
            noted.value = notes;
            view.value = "courses";
          }}
          also={(line, one) => {
            if (line) noted.value = [...noted.value, line];
            if (one) added.value = [...added.value, one];
          }}
        />
        <Paper
          desk={desk}
          area={area}
          opened={openedLine}
          pasted={() => {
            view.value = "courses";
          }}
          pointed={pointed}
        />
      </div>

      <div class="side courses">
        <div class="sense-of">
          {pattern && <h1>{title}</h1>}
          {pattern && courses > 0 && <TermsRead desk={desk} pattern={pattern} />}
          {noted.value.map((line) => (
            <p key={line} role="status">
              {line}
            </p>
          ))}
          <OnTheShelf added={added.value} />
          {courses > 0 && (
            <p class="to-size">
              {ONWARD.map(([name, to]) =>
                id !== null && !desk.changed.value ? (
                  <a class="word" key={name} href={to(id)}>
                    {name}
                  </a>
                ) : (
                  <button type="button" class="word" key={name} onClick={() => void onward(to)}>
                    {name}
                  </button>
                ),
              )}
            </p>
          )}
          <div id="loose">
            {loose.map((f, i) => (
              <FindingRead key={i} finding={f} desk={desk} show={show} />
            ))}
          </div>
          {pattern && offered(pattern) > 1 && desk.unmended.value !== desk.text.value && (
            <p class="mend-all">
              A mended line is offered at {offered(pattern)} places.{" "}
              <button
                type="button"
                class="label"
                disabled={!desk.fresh.value || desk.starting.value}
                onClick={() => void desk.mendAll()}
              >
                Take the likeliest everywhere
              </button>
            </p>
          )}
          {pattern?.joinings.map(({ course_id, say }) => <p key={course_id}>{say}</p>)}
          {pattern && <OrderOfWork desk={desk} pattern={pattern} />}
          {pieces}
          {!pattern && empty && desk.ready.value && (
            <p class="invite">
              Paste a pattern and its rounds appear here, counted: how many stitches each one uses, how many it makes, and
              what the designer printed.
            </p>
          )}
        </div>
      </div>

      <footer>
        {last && desk.text.value === last.after && (
          <p class="took" role="status">
            Taken: {last.label}.{" "}
            <button type="button" class="word" onClick={() => desk.takeBack()}>
              Take it back
            </button>
          </p>
        )}
        {both && desk.text.value === both.both && (
          <p class="took" role="status">
            Pasted into the text that was here already.{" "}
            <button type="button" class="word" onClick={() => desk.onlyPasted()}>
              Keep only what I pasted
            </button>
          </p>
        )}
        <p id="status" role="status">
          {desk.say.value ||
            (desk.draftRefused.value
              ? "This browser keeps nothing: a reload would lose the text. Keep it on the shelf first."
              : empty
                ? "Nothing here yet."
                : pattern
                  ? verdict(pattern.findings, courses)
                  : "Reading.")}
          {broken && courses > 0 && (
            <span class="anyway soft"> Started anyway, you work those from the designer's words.</span>
          )}
          {places.length > 0 && !desk.say.value && (
            <>
              {" "}
              <button type="button" class="word" onClick={nextPlace}>
                Show me
              </button>
            </>
          )}
        </p>
        <button type="button" class="tape" disabled={!courses || desk.starting.value} onClick={() => void start()}>
          {broken && courses ? "Start anyway" : "Start"}
        </button>
      </footer>
    </main>
  );
}

/** A pattern of the maker's own can go; what is already on the hook goes on without it. */
function TakeOff({ desk }: { desk: Desk }) {
  const asking = useSignal(false);
  if (!asking.value)
    return (
      <button type="button" class="word soft" onClick={() => (asking.value = true)}>
        Take it off the shelf
      </button>
    );
  return (
    <span>
      <button
        type="button"
        class="word"
        onClick={() =>
          void desk.takeOff().then((off) => {
            if (off) go(toShelf);
          })
        }
      >
        Yes, take this text away
      </button>{" "}
      <button type="button" class="word" onClick={() => (asking.value = false)}>
        Leave it
      </button>
    </span>
  );
}

/** How far down inside `box` the character at `offset` stands, in pixels. */
function lineTop(box: Element, offset: number): number {
  const walk = document.createTreeWalker(box, NodeFilter.SHOW_TEXT);
  let left = offset;
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const length = node.textContent?.length ?? 0;
    if (left < length) {
      const range = document.createRange();
      range.setStart(node, left);
      range.setEnd(node, Math.min(length, left + 1));
      return range.getBoundingClientRect().top - box.getBoundingClientRect().top;
    }
    left -= length;
  }
  return 0;
}
