import "./paper.css";
import { useEffect, useState } from "preact/hooks";
import { api, type GatheredList, Refused, type Snapshot } from "../../api";
import { PieceChart } from "../../drawings/chart/Chart";
import type { Course, Cue, Terms } from "../../generated/pattern";
import { maker } from "../../maker";
import { toBench, toRead, toShelf } from "../../route";
import type { Chosen } from "../../follow/choices";
import { herColour } from "../gather/words";
import { jobPlace, jobWords } from "../read/jobs";
import { name, type Stretch, stretches } from "../read/sections";
import { type Laid, MOST_BOXES, ofMaking, ofPattern, worthDrawing } from "./sheet";

interface Printed {
  title: string;
  terms: Terms;
  pieces: Laid[];
  gathered: GatheredList | null;
  chosen: Chosen;
}

/** A pattern as its text has it. */
async function pattern(id: string): Promise<Printed> {
  const kept = await api.pattern(id);
  const read = await api.read(kept.text, kept.terms);
  return { title: read.title, terms: read.terms, pieces: ofPattern(read), gathered: await api.gather(id, 1).catch(withoutList), chosen: {} };
}

/** A making as it is worked. */
async function asWorked(making: number): Promise<Printed> {
  const snapshot: Snapshot = await api.making(making);
  const gathered = await api.gatherMaking(making).catch(withoutList);
  return { title: snapshot.title, terms: snapshot.terms, pieces: ofMaking(snapshot), gathered, chosen: snapshot.choices ?? {} };
}

/** What can't be measured has no list; the rounds print all the same. */
const withoutList = () => null;

/** The whole of a pattern for paper, A4 or Letter: what to have at hand, a box to tick for each round, charts. */
export function PaperPage({ id, making }: { id: string; making: number | null }) {
  const [laid, set] = useState<Printed | null>(null);
  const [trouble, setTrouble] = useState("");
  const [drawn, draw] = useState(true);
  useEffect(() => {
    document.title = "On paper · Hookside";
    let here = true;
    (making === null ? pattern(id) : asWorked(making)).then(
      (found) => here && set(found),
      (why: unknown) => here && setTrouble(why instanceof Refused ? why.say : "This could not be laid out just now. Try again in a moment."),
    );
    return () => {
      here = false;
    };
  }, [id, making]);
  useEffect(() => {
    if (laid) document.title = laid.title || "Pattern";
  }, [laid]);
  return (
    <main class="page on-paper">
      <nav>
        <a class="word" href={toShelf}>
          Shelf
        </a>
        {making === null ? (
          <a class="word" href={toRead(id)}>
            The pattern
          </a>
        ) : (
          <a class="word" href={toBench(making)}>
            The bench
          </a>
        )}
        <label class="draws">
          <input type="checkbox" checked={drawn} onChange={(e) => draw(e.currentTarget.checked)} /> with charts
        </label>
        <button type="button" class="tape" disabled={!laid} onClick={() => print()}>
          Print
        </button>
      </nav>
      {trouble && <p role="alert">{trouble}</p>}
      {!laid && !trouble && <p role="status">Laying it out.</p>}
      {laid && <Paper {...laid} drawn={drawn} />}
    </main>
  );
}

function Paper({ title, terms, pieces, gathered, chosen, drawn }: Printed & { drawn: boolean }) {
  return (
    <article>
      <h1>{title || "Pattern"}</h1>
      <p>{terms} terms.</p>
      {gathered && gathered.items.length > 0 && (
        <section>
          <h2>To have at hand</h2>
          <ul class="ticked">
            {gathered.items.map((item) => (
              <li key={item.id}>
                <Boxes n={1} filled={[chosen.ticks?.gather?.includes(item.id) ?? false]} />
                <span>
                  {item.name}
                  {item.amount ? `, ${item.amount}` : ""}
                  {yours(herColour(item, chosen, gathered.pieces))}
                </span>
              </li>
            ))}
          </ul>
        </section>
      )}
      {gathered?.first?.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {pieces.map((laid, i) => (
        <PieceOnPaper key={i} laid={laid} terms={terms} drawn={drawn} />
      ))}
      {gathered?.cautions.map((caution) => (
        <p key={caution.id} class="caution">
          {caution.text}
        </p>
      ))}
    </article>
  );
}

const yours = (words: string) => (words ? `; yours: ${words}` : "");

function PieceOnPaper({ laid, terms, drawn }: { laid: Laid; terms: Terms; drawn: boolean }) {
  const { piece, made } = laid;
  const { before, stretches: list } = stretches(piece, []);
  return (
    <section>
      <h2>
        {piece.name || "The work"}
        {made > 1 && <small> make {made}</small>}
      </h2>
      <ul class="ticked">
        {before.map((cue) => (
          <CueOnPaper key={cue.address} cue={cue} laid={laid} />
        ))}
        {list.map((stretch) => [
          <CourseOnPaper key={stretch.courses[0]?.id} stretch={stretch} laid={laid} />,
          ...stretch.cues.map((cue) => <CueOnPaper key={cue.address} cue={cue} laid={laid} inside={stretch.courses.at(-1)} />),
        ])}
      </ul>
      {drawn && worthDrawing(piece) && (
        <figure>
          <PieceChart courses={piece.courses} hand={maker.value.hand} place={null} terms={terms} name={piece.name} />
        </figure>
      )}
    </section>
  );
}

function CourseOnPaper({ stretch, laid }: { stretch: Stretch; laid: Laid }) {
  const [course] = stretch.courses;
  if (!course) return null;
  const words = (course.read && course.words.short) || course.text;
  return (
    <li>
      <span class="boxes-of">
        {stretch.courses.map((one) => (
          <CopiesOf key={one.id} laid={laid} what={one.id} />
        ))}
      </span>
      <span>
        <b>{name(stretch)}</b> {words} {count(course)}
      </span>
    </li>
  );
}

/** The count, where the words do not end in it. */
const count = (course: Course) => (course.makes ? `(${course.makes})` : "");

/** A box for each copy, of a course by its id or of a job by its address. */
const CopiesOf = ({ laid, what }: { laid: Laid; what: string }) => (
  <Boxes n={Math.min(laid.made, MOST_BOXES)} filled={laid.worked.map((worked) => worked.has(what))} />
);

const CueOnPaper = ({ cue, laid, inside }: { cue: Cue; laid: Laid; inside?: Course | undefined }) => (
  <li class={`job ${cue.weight}`}>
    <span class="boxes-of">
      <CopiesOf laid={laid} what={cue.address} />
    </span>
    <span>
      {jobPlace(cue, inside)}
      {jobWords(cue)}
    </span>
  </li>
);

/** Boxes to tick, side by side: one for each copy. */
function Boxes({ n, filled = [] }: { n: number; filled?: boolean[] }) {
  return (
    <svg class="boxes" viewBox={`0 0 ${n * 14} 14`} style={{ width: `${n * 0.95}em` }} role="img" aria-label={filled.some(Boolean) ? `${filled.filter(Boolean).length} of ${n} worked` : "to tick"}>
      {Array.from({ length: n }, (_, i) => (
        <rect key={i} x={i * 14 + 1.5} y={1.5} width={11} height={11} class={filled[i] ? "filled" : ""} />
      ))}
    </svg>
  );
}
