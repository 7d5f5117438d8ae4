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
  const act = (work: Promise<unknown>, then: string) => {
    say.value = then;
    work.then(look, (why: unknown) => (say.value = why instanceof Refused ? why.say : String(why)));
  };
  const { engines = [], models = [], languages = [] } = about.value ?? {};
  const lacking = languages.filter((l) => !models.some((m) => m.language === l.code && m.engine === "vosk"));
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
      {lacking.length > 0 && (
        <div class="sheet-answers">
          {lacking.map((l) => (
            <button key={l.code} type="button" class="answer" onClick={() => act(voice.add(l.code), `Asking for the ${languageName(l)} model. It comes over the network, once.`)}>
              Add the {languageName(l)} model
            </button>
          ))}
        </div>
      )}
      <p role="status">
        {job.value ? `${job.value.say}${job.value.done ? "" : ` ${Math.round(job.value.share * 100)} of 100`}` : say.value}
      </p>
    </section>
  );
}
