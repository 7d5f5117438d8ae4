import type { Course, Cue, Finding, Piece } from "../../generated/pattern";
import type { Desk } from "./desk";
import { name, SAID, type Stretch, stretches } from "./sections";

interface Shared {
  desk: Desk;
  /** Id of the course that is opened, if any. */
  open: string | null;
  turn: (id: string | null) => void;
  /** Shows a line in the text. */
  show: (line: number) => void;
}

/** One piece: its courses with what they use, make and what the designer printed; cues where they are due. */
export function PieceRead({ piece, findings, ...shared }: { piece: Piece; findings: Finding[] } & Shared) {
  const { before, stretches: list } = stretches(piece, findings);
  return (
    <section class="piece">
      <h2>
        {piece.name || "The work"}
        {piece.make > 1 && <span class="make"> make {piece.make}</span>}
      </h2>
      {list.length > 0 && (
        <div class="heads" aria-hidden="true">
          <span>uses</span>
          <span>makes</span>
          <span>printed</span>
        </div>
      )}
      <ol>
        {before.map((c) => (
          <CueRead key={c.address} cue={c} />
        ))}
        {list.map((s) => (
          <StretchRead key={s.courses[0]?.id} stretch={s} {...shared} />
        ))}
      </ol>
    </section>
  );
}

const understood = (course: Course) => (course.read && course.words.short) || course.text;

function StretchRead({ stretch, desk, open, turn, show }: { stretch: Stretch } & Shared) {
  const course = stretch.courses[0];
  if (!course) return null;
  const opened = open === course.id;
  const grave = stretch.findings.some((f) => f.severity === "error")
    ? "error"
    : stretch.findings.some((f) => f.severity === "warning")
      ? "warning"
      : "";
  const differs = course.declared !== null && course.makes !== null && course.declared !== course.makes;
  const told = stretch.findings.filter((f) => f.severity !== "note" || opened);
  return (
    <>
      <li class={`course ${grave} ${opened ? "open" : ""}`} id={`course-${course.id}`}>
        <button type="button" aria-expanded={opened} onClick={() => turn(opened ? null : course.id)}>
          <span class="label-of">{name(stretch)}</span>
          <span class="sense">{understood(course)}</span>
          <Count unit="uses" n={course.uses} />
          <Count unit="makes" n={course.makes} />
          <Count unit="printed" n={course.declared} differs={differs} />
        </button>
        {opened && (
          <p class="printed-as">
            {understood(course) !== course.text && <q>{course.text}</q>}{" "}
            <button type="button" class="word soft" onClick={() => show(course.line)}>
              line {course.line}
            </button>
          </p>
        )}
        {!course.read && !told.length && (
          <p class="unread">Not read. At this {course.kind} you work from the designer's words, then say how many stitches you have.</p>
        )}
        {told.map((f, i) => (
          <FindingRead key={i} finding={f} desk={desk} />
        ))}
      </li>
      {stretch.cues.map((c) => (
        <CueRead key={c.address} cue={c} inside={stretch.courses.at(-1)} />
      ))}
    </>
  );
}

function Count({ unit, n, differs = false }: { unit: string; n: number | null; differs?: boolean }) {
  return (
    <span class={`count ${differs ? "differs" : ""} ${n === null ? "none" : ""}`}>
      <span class="unit">{unit} </span>
      {n ?? <span aria-label="not known">·</span>}
    </span>
  );
}

function CueRead({ cue, inside }: { cue: Cue; inside?: Course | undefined }) {
  const stitches = `${cue.at} ${cue.at === 1 ? "stitch" : "stitches"}`;
  const where = cue.at === null || !inside ? "" : `In ${inside.kind} ${inside.label}, after ${stitches}: `;
  return (
    <li class={`cue ${cue.weight}`}>
      <span class="knot" aria-hidden="true" />
      <span>
        {where}
        {cue.words.short || cue.text}
        {cue.basis === "worked out" && <span class="basis"> (worked out by Hookside)</span>}
        {cue.weight === "stop" && <span class="said"> The work stops here until you say done.</span>}
      </span>
    </li>
  );
}

export function FindingRead({ finding, desk, show }: { finding: Finding; desk: Desk; show?: (line: number) => void }) {
  return (
    <div class={`finding ${finding.severity}`}>
      <p>
        <b>{SAID[finding.severity]}.</b> {finding.message}{" "}
        {show && (
          <button type="button" class="word soft" onClick={() => show(finding.line)}>
            line {finding.line}
          </button>
        )}
      </p>
      {finding.suggestions.length > 0 && (
        <p class="taps">
          {finding.suggestions.map((s, i) => (
            <button key={i} type="button" class="label" disabled={!desk.fresh.value} onClick={() => desk.takeSuggestion(s)}>
              {s.label}
            </button>
          ))}
        </p>
      )}
    </div>
  );
}
