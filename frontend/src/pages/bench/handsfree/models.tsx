import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Refused } from "../../../api";
import type { Session } from "../../../hands/session";
import { wish, wishes } from "../../../hands/wishes";
import { sentenceCase } from "../place";
import { Choices } from "./choices";
import type { Progress } from "../../../hands/ear/events";
import { type About, voice } from "./rest";

/** A language by its name in the words of this page: not every device has the letters of its own name. */
const ENGLISH: Record<string, string> = { en: "English", ko: "Korean" };
const languageName = ({ code, name }: { code: string; name: string }) => ENGLISH[code] ?? name;

const ASKED_MS = 600;

/** Whether this device, or what was chosen on it, speaks a language. */
const isSpoken = (code: string): boolean =>
  wishes.value.language === code || navigator.languages.some((tag) => tag.toLowerCase().split("-")[0] === code);

/** What an engine is good for, for someone who never heard its name. */
const ENGINES: Record<string, string> = {
  vosk: "The better ear understands most voices, also with some noise about. It needs a model of your language, which is added once.",
  pocketsphinx: "The ear that comes with Hookside understands plain English phrases, best in a quiet room.",
};

function engineSaid({ name, there, say }: About["engines"][number]): string {
  const known = ENGINES[name];
  if (there) return known ?? sentenceCase(say);
  return `${name === "vosk" ? "The better ear" : "The ear that comes with Hookside"} is not there: ${say}`;
}

/** Which engines and models there are on the machine that listens, and how to add a better one. */
export function Models({ session }: { session: Session | null }) {
  const about = useSignal<About | null>(null);
  const say = useSignal("");
  const job = useSignal<Progress | null>(null);
  const look = () => voice.about().then((now) => (about.value = now), (why: unknown) => (say.value = why instanceof Refused ? why.say : String(why)));
  useEffect(() => void look(), []);
  useEffect(
    () =>
      session?.ear.listenTo((progress) => {
        job.value = progress;
        if (!progress.done) return;
        void look();
        session.relisten();
      }),
    [session],
  );
  // Who is not on the ear's line asks how far it is.
  const going = about.value?.job?.done === false;
  useEffect(() => {
    if (session || !about.value?.job) return;
    job.value = about.value.job;
    if (!going) return;
    const again = setTimeout(() => void look(), ASKED_MS);
    return () => clearTimeout(again);
  }, [session, about.value]);
  const act = (work: Promise<unknown>, then: string) => {
    say.value = then;
    job.value = null;
    work.then(look, (why: unknown) => (say.value = why instanceof Refused ? why.say : String(why)));
  };
  const fromFile = (file: File) => {
    const told = (share: number) => (say.value = `${file.name} is coming in: ${Math.round(share * 100)} of 100`);
    act(voice.addFile(file, told), `${file.name} is coming in.`);
  };
  const { engines = [], models = [], languages = [] } = about.value ?? {};
  const lacking = languages.filter((l) => !models.some((m) => m.language === l.code && m.engine === "vosk"));
  const near = lacking.filter(({ code }) => code === "en" || isSpoken(code));
  const far = lacking.filter((l) => !near.includes(l));
  const add = (l: About["languages"][number]) => (
    <button key={l.code} type="button" class="answer" onClick={() => act(voice.add(l.code), `Asking for the ${languageName(l)} model. It comes over the network, once.`)}>
      Add the {languageName(l)} model
    </button>
  );
  return (
    <section class="models">
      <h3>What listens</h3>
      <ul class="plain-list">
        {engines.map((e) => (
          <li key={e.name}>{engineSaid(e)}</li>
        ))}
        {models.map((m) => (
          <li key={m.name}>
            {m.engine === "vosk" ? "Added" : "There already"}: {m.name} ({m.language}, {Math.max(1, Math.round(m.size / 1e6))} MB){" "}
            {m.engine === "vosk" && (
              <button type="button" class="word plain" onClick={() => act(voice.remove(m.name), `Removing ${m.name}.`)}>
                remove
              </button>
            )}
          </li>
        ))}
      </ul>
      {languages.filter((l) => l.there).length > 1 && (
        <Choices name="language" ask="You speak" of={languages.filter((l) => l.there).map((l) => [l.code, languageName(l)] as const)} now={wishes.value.language} choose={(language) => wish({ language })} />
      )}
      {near.length > 0 && <div class="sheet-answers">{near.map(add)}</div>}
      <label class="from-file">
        <span>Or a voice model from this device, as a zip:</span>
        <input
          type="file"
          accept=".zip,application/zip"
          onChange={(e) => {
            const [file] = e.currentTarget.files ?? [];
            if (file) fromFile(file);
            e.currentTarget.value = "";
          }}
        />
      </label>
      {far.length > 0 && (
        <details>
          <summary>Another language</summary>
          <div class="sheet-answers">{far.map(add)}</div>
        </details>
      )}
      <p role="status">
        {job.value ? `${job.value.say}${job.value.done ? "" : ` ${Math.round(job.value.share * 100)} of 100`}` : say.value}
      </p>
    </section>
  );
}
