import type { Course, Cue, Finding, Pattern, Piece, Severity, Suggestion, Words } from "../../generated/pattern";
import { maker } from "../../maker";
import { type Desk, MOST_COPIES } from "./desk";
import { Explained } from "./Explained";
import { jobPlace, jobWords } from "./jobs";
import { again, chain, gravity, name, needed, SAID, type Stretch, stretches } from "./sections";

interface Shared {
  desk: Desk;
  /** Id of the course that is opened, if any. */
  open: string | null;
  turn: (id: string | null) => void;
  /** Shows a line in the text. */
  show: (line: number) => void;
}

/** Notes that say of a course what was said of one before it. */
type Later = ReturnType<typeof again>;

/** One piece: its courses with what they use, make and what the designer printed; cues where they are due. */
export function PieceRead({
  piece,
  number,
  pattern,
  ...shared
}: { piece: Piece; /** From 1. */ number: number; pattern: Pattern } & Shared) {
  const { findings } = pattern;
  const { before, stretches: list } = stretches(piece, findings);
  const later = again(findings);
  return (
    <section class="piece">
      <div class="title">
        <h2>{piece.name || "The work"}</h2>
        {list.length > 0 && <Make desk={shared.desk} pattern={pattern} number={number} />}
      </div>
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
          <StretchRead key={s.courses[0]?.id} stretch={s} piece={piece} later={later} {...shared} />
        ))}
      </ol>
    </section>
  );
}

/** How many of a piece to make: the pattern's number until the maker writes another. */
function Make({ desk, pattern, number }: { desk: Desk; pattern: Pattern; number: number }) {
  const piece = pattern.pieces[number - 1];
  const made = desk.made(pattern, number);
  return (
    <label class="make">
      make{" "}
      <input
        type="text"
        inputMode="numeric"
        maxLength={2}
        aria-label={`How many of ${piece?.name || "this piece"} to make, 1 to ${MOST_COPIES}`}
        value={made}
        onFocus={(e) => e.currentTarget.select()}
        onInput={(e) => {
          if (/^[1-9]\d?$/.test(e.currentTarget.value)) desk.choose(pattern, number, Number(e.currentTarget.value));
        }}
        onBlur={(e) => {
          e.currentTarget.value = String(desk.made(pattern, number));
        }}
      />
      {piece && made !== piece.make && <span class="soft"> the pattern says {piece.make}</span>}
    </label>
  );
}

const SEEN: Record<Severity, string> = { error: "error", warning: "warning", note: "noticed" };

const said = (words: Words) => (maker.value.words === "full" && words.full) || words.short;

const understood = (course: Course) => (course.read && said(course.words)) || course.text;

function StretchRead({ stretch, piece, later, desk, open, turn, show }: { stretch: Stretch; piece: Piece; later: Later } & Shared) {
  const course = stretch.courses[0];
  if (!course) return null;
  const opened = open === course.id;
  const grave = (["error", "warning", "note"] as const).find((s) => stretch.findings.some((f) => gravity(f) === s)) ?? "";
  const differs = course.declared !== null && course.makes !== null && course.declared !== course.makes;
  const chained = course.uses === 0 && course.makes === 0 ? chain(course) : 0;
  return (
    <>
      <li class={`course ${grave && SEEN[grave]} ${opened ? "open" : ""}`} id={`course-${course.id}`}>
        <button type="button" aria-expanded={opened} onClick={() => turn(opened ? null : course.id)}>
          <span class="label-of">{name(stretch)}</span>{" "}
          <span class="sense">{understood(course)}</span>
          {chained ? (
            <span class="count chain">{chained} chain</span>
          ) : (
            <>
              <Count unit="uses" n={course.uses} start={course.uses === 0} />
              <Count unit="makes" n={course.makes} />
            </>
          )}
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
        {!course.read && !stretch.findings.length && (
          <p class="unread">Not read. At this {course.kind} you work from the designer's words, then say how many stitches you have.</p>
        )}
        {stretch.findings.map((f, i) => {
          const first = later.get(f);
          const whole = <FindingRead key={i} finding={f} desk={desk} piece={piece} />;
          if (!first) return whole;
          return (
            <details key={i} class="once-more">
              <summary>
                Noticed, as in {first.piece !== f.piece && first.piece ? `${first.piece}, ` : ""}
                {course.kind} {first.course}
              </summary>
              {whole}
            </details>
          );
        })}
        {opened && <Explained course={course.id} desk={desk} />}
      </li>
      {stretch.cues.map((c) => (
        <CueRead key={c.address} cue={c} inside={stretch.courses.at(-1)} />
      ))}
    </>
  );
}

/** A number under its heading. A start has nothing below it to use: its place stays empty. */
function Count({ unit, n, differs = false, start = false }: { unit: string; n: number | null; differs?: boolean; start?: boolean }) {
  if (start) return <span class="count start" />;
  return (
    <span class={`count ${differs ? "differs" : ""} ${n === null ? "none" : ""}`}>
      <span class="unit">{unit} </span>
      {n ?? <span aria-label="not known">·</span>}
    </span>
  );
}

function CueRead({ cue, inside }: { cue: Cue; inside?: Course | undefined }) {
  return (
    <li class={`cue ${cue.weight}`}>
      <span class="knot" aria-hidden="true" />
      <span>
        {jobPlace(cue, inside)}
        {jobWords(cue, said(cue.words))}
        {cue.basis === "worked out" && <span class="basis"> (worked out by Hookside)</span>}
        {cue.weight === "stop" && <span class="said"> The work stops here until you say done.</span>}
      </span>
    </li>
  );
}

interface Found {
  finding: Finding;
  desk: Pick<Desk, "fresh" | "takeSuggestion">;
  piece?: Piece;
  show?: (line: number) => void;
}

export function FindingRead({ finding, desk, piece, show }: Found) {
  const gap = piece && finding.code === "count" && finding.course_id ? needed(piece, finding.course_id) : undefined;
  const severity = gravity(finding);
  const likely = (s: Suggestion) => gap?.which === "stitches" && s.replacement === String(gap.n);
  return (
    <div class={`finding ${SEEN[severity]}`}>
      <p>
        <b>{SAID[severity]}.</b> {show ? linked(finding.message, show) : finding.message} {gap !== undefined && evidence(gap, finding)}{" "}
        {show && !LINES.test(finding.message) && (
          <button type="button" class="word soft" onClick={() => show(finding.line)}>
            line {finding.line}
          </button>
        )}
      </p>
      {finding.suggestions.length > 0 && (
        <p class="taps">
          {[...finding.suggestions.filter(likely), ...finding.suggestions.filter((s) => !likely(s))].map((s, i) => (
            <button key={i} type="button" class="label" disabled={!desk.fresh.value} onClick={() => desk.takeSuggestion(s)}>
              {s.label}
              {likely(s) && <span class="likely"> (likelier)</span>}
            </button>
          ))}
        </p>
      )}
    </div>
  );
}

/** How a sentence begins that names several lines of the text. */
const LINES = /^Lines (?:\d+\b(?! more)(?:, | and )?)+/;

/** The same with each line's number as the way to it. */
function linked(message: string, show: (line: number) => void) {
  const [named = ""] = LINES.exec(message) ?? [];
  return [
    ...named.split(/(\d+,?)/).map((part) =>
      /\d/.test(part) ? (
        <button type="button" class="word soft" onClick={() => show(Number.parseInt(part))}>
          <span class="said">line </span>
          {part}
        </button>
      ) : (
        part
      ),
    ),
    message.slice(named.length),
  ];
}

/** Why one of the two numbers of a course is likelier: what the courses after it need. */
function evidence(gap: ReturnType<typeof needed>, finding: Finding): string {
  if (!gap) return "Nothing after it tells which of the two is meant; worked as it stands, you follow the stitches.";
  const by = `${gap.by.kind} ${gap.by.label}`;
  if (gap.which === "printed")
    return `${by.charAt(0).toUpperCase()}${by.slice(1)} needs ${gap.n}: the printed count looks right, and a stitch or a repeat got lost here.`;
  return `From ${gap.n}, ${by} comes out at the ${gap.by.declared} it prints: the stitches look right, and the ${finding.found ?? "printed count"} is a slip.`;
}
