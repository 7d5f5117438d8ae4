import { useSignal } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import { api, AWAY, type KeptPattern, type Reading, Refused } from "../../api";
import type { Suggestion } from "../../generated/pattern";
import { toRead } from "../../route";
import { FindingRead } from "../read/Courses";
import { take } from "../read/text";
import { toMend } from "./amiss";
import { Sheet } from "./sheet";

interface Props {
  pattern: string | number;
  title: string;
  /** The yarn in hand, where the pattern names colours. */
  yarn: string | null;
  /** Id of the course in hand: what is wrong with it comes first. */
  course: string | undefined;
  close: () => void;
  /** One line on the screen, said aloud too. */
  tell: (text: string) => void;
}

/** Without its server a page cannot have a text read; it shows what is written all the same. */
type Found = { kept: KeptPattern; reading: Reading | null } | { say: string } | null;

/** What the designer printed beside the rounds: hook, gauge, materials, notes, abbreviations; last the whole text. */
export function PatternSheet({ pattern, title, yarn, course, close, tell }: Props) {
  const [found, setFound] = useState<Found>(null);
  useEffect(() => {
    let here = true;
    api
      .pattern(pattern)
      .then(async (kept) => ({ kept, reading: await api.read(kept.text, kept.terms).catch(unlessAway) }))
      .catch((trouble: unknown) => ({ say: trouble instanceof Refused ? trouble.say : "The pattern could not be fetched. Try again in a moment." }))
      .then((now) => here && setFound(now));
    return () => {
      here = false;
    };
  }, [pattern]);
  return (
    <Sheet title={title || "The pattern"} close={close} walked>
      {found === null ? (
        <p role="status">Fetching the pattern.</p>
      ) : "say" in found ? (
        <p role="alert">{found.say}</p>
      ) : (
        <>
          {found.reading && <Amiss {...found} reading={found.reading} {...{ course, close, tell }} />}
          <Told {...found} yarn={yarn} />
        </>
      )}
    </Sheet>
  );
}

function unlessAway(why: unknown): null {
  if (why instanceof Refused && why.code === AWAY) return null;
  throw why;
}

/** What can't be followed or is to be looked at, with the mended lines that are offered; the bench asks about the text then. */
function Amiss({ kept, reading, course, close, tell }: { kept: KeptPattern; reading: Reading } & Pick<Props, "course" | "close" | "tell">) {
  const fresh = useSignal(true);
  const say = useSignal("");
  const found = toMend(reading.findings, course);
  if (found.length === 0) return null;
  const takeSuggestion = (mend: Suggestion) => {
    fresh.value = false;
    api.changePattern(kept.id, take(kept.text, mend), kept.terms).then(
      () => {
        tell(`Mended in the text: ${mend.label}.`);
        close();
      },
      (why: unknown) => {
        fresh.value = true;
        say.value = why instanceof Refused ? why.say : String(why);
      },
    );
  };
  return (
    <section>
      <h3>To mend in the text</h3>
      {found.map((finding) => (
        <FindingRead
          key={`${finding.line} ${finding.code}`}
          finding={finding}
          desk={{ fresh, takeSuggestion }}
          {...{ piece: reading.pieces.find((piece) => piece.courses.some(({ id }) => id === finding.course_id)) }}
        />
      ))}
      <p role="alert">{say.value}</p>
      <p>
        <a class="word" href={toRead(kept.id)}>
          Change the text by hand
        </a>
      </p>
    </section>
  );
}

function Told({ kept, reading, yarn }: { kept: KeptPattern; reading: Reading | null; yarn: string | null }) {
  return (
    <>
      {reading ? <Around reading={reading} yarn={yarn} /> : yarn && <p>Yarn in hand: {yarn}</p>}
      <h3>As it is written</h3>
      <p class="as-written">{kept.text}</p>
    </>
  );
}

function Around({ reading, yarn }: { reading: Reading; yarn: string | null }) {
  const short: [string, string][] = [
    ["Hook", reading.hook],
    ["Gauge", reading.gauge],
    ["Yarn in hand", yarn ?? ""],
    ["Terms", `${reading.terms}. ${reading.terms_because}`],
  ];
  const abbreviations = Object.entries(reading.abbreviations);
  return (
    <>
      <dl class="table">
        {short.map(([name, text]) => text && [<dt key={name}>{name}</dt>, <dd key={`${name}.`}>{text}</dd>])}
      </dl>
      {reading.materials.length > 0 && <Lines name="Materials" lines={reading.materials} />}
      {reading.notes.length > 0 && <Lines name="Notes" lines={reading.notes} />}
      {abbreviations.length > 0 && (
        <>
          <h3>Abbreviations</h3>
          <dl class="table">
            {abbreviations.map(([word, text]) => [<dt key={word}>{word}</dt>, <dd key={`${word}.`}>{text}</dd>])}
          </dl>
        </>
      )}
    </>
  );
}

function Lines({ name, lines }: { name: string; lines: readonly string[] }) {
  return (
    <>
      <h3>{name}</h3>
      <ul class="plain-list">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}
