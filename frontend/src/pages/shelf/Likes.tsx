import "./likes.css";
import { useSignal } from "@preact/signals";
import { type Maker, Refused } from "../../api";
import { changeMaker, maker } from "../../maker";
import { Who } from "./Who";

interface Question<K extends keyof Maker> {
  key: K;
  ask: string;
  answers: [Maker[K], string][];
}

const HAND: Question<"hand"> = { key: "hand", ask: "The hook is in your", answers: [["right", "right hand"], ["left", "left hand"]] };
const PLAIN: Question<"plain"> = {
  key: "plain",
  ask: "A touch goes on by",
  answers: [
    ["plain", "the repeat, or a plain round"],
    ["group", "a few stitches"],
    ["stitch", "one stitch"],
  ],
};
const BESIDE: [Maker["plain_keys"], string][] = [
  ["same", "the same"],
  ["plain", "a repeat or a plain round"],
  ["stitch", "stitch by stitch"],
];
const KEYS: Question<"plain_keys"> = { key: "plain_keys", ask: "A key or pedal goes on by", answers: BESIDE };
const VOICE: Question<"plain_voice"> = { key: "plain_voice", ask: "“Next”, said aloud, goes on by", answers: BESIDE };
const LIGHT: Question<"light"> = {
  key: "light",
  ask: "Light",
  answers: [
    ["auto", "as this device has it"],
    ["daylight", "daylight"],
    ["lamplight", "lamplight"],
  ],
};
const WORDS: Question<"words"> = { key: "words", ask: "Stitches are written", answers: [["short", "short: 4 sc"], ["full", "in full: 4 single crochet"]] };
const TERMS: Question<"terms"> = {
  key: "terms",
  ask: "Stitches are called",
  answers: [
    [null, "as the pattern has it"],
    ["US", "in US terms"],
    ["UK", "in UK terms"],
  ],
};
const BREAKS: Question<"breaks"> = {
  key: "breaks",
  ask: "A rest for your hands is spoken of",
  answers: [
    [0, "never"],
    [20, "after 20 minutes"],
    [30, "after 30 minutes"],
    [50, "after 50 minutes"],
  ],
};
const DECREASES: Question<"decreases"> = {
  key: "decreases",
  ask: "Decreases are",
  answers: [
    ["plain", "as the pattern has them"],
    ["invisible", "invisible where they can be"],
  ],
};

function Asked<K extends keyof Maker>({ question, refused }: { question: Question<K>; refused: (say: string) => void }) {
  return (
    <fieldset class="choices">
      <legend>{question.ask}</legend>
      {question.answers.map(([value, words]) => (
        <label class="choice" key={String(value)}>
          <input
            type="radio"
            name={question.key}
            checked={maker.value[question.key] === value}
            onChange={() => {
              changeMaker({ [question.key]: value } as Partial<Maker>).then(
                () => refused(""),
                (why: unknown) => refused(why instanceof Refused ? why.say : String(why)),
              );
            }}
          />
          <span>{words}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** How this maker likes it: few questions, answered by a touch, kept at once. */
export function Likes() {
  const say = useSignal("");
  const refused = (words: string) => {
    say.value = words;
  };
  return (
    <section class="likes" id="likes" aria-label="How you like it">
      <Who refused={refused} />
      <Asked question={HAND} refused={refused} />
      <Asked question={PLAIN} refused={refused} />
      <Asked question={KEYS} refused={refused} />
      <Asked question={VOICE} refused={refused} />
      <Asked question={WORDS} refused={refused} />
      <Asked question={TERMS} refused={refused} />
      <Asked question={DECREASES} refused={refused} />
      <Asked question={BREAKS} refused={refused} />
      <Asked question={LIGHT} refused={refused} />
      <p role="status" class={say.value ? "note" : "said"}>
        {say.value}
      </p>
    </section>
  );
}
