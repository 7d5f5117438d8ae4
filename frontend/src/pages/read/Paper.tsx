import type { ComponentChild, RefObject } from "preact";
import type { Desk } from "./desk";
import { lineMap, lineRange, marks } from "./text";

interface Props {
  desk: Desk;
  area: RefObject<HTMLTextAreaElement | null>;
  /** Line of the course that is opened on the other side, as it was read. */
  opened: number | null;
  pasted: () => void;
  /** The line the maker put the cursor on, from 1. */
  pointed: (line: number) => void;
}

/** The pattern as text. Findings are underlined behind the words; the words stay the browser's own to edit. */
export function Paper({ desk, area, opened, pasted, pointed }: Props) {
  const text = desk.text.value;
  const read = desk.read.value;
  const found = read ? marks(read.text, text, read.pattern.findings) : [];
  const line = read && opened !== null ? lineMap(read.text, text)(opened) : null;
  const [from, to] = line === null ? [text.length, text.length] : lineRange(text, line);
  const words = (start: number, end: number) => {
    const shown: ComponentChild[] = [];
    let at = start;
    for (const m of found) {
      if (m.start < start || m.start >= end) continue;
      shown.push(text.slice(at, m.start), <mark class={m.severity}>{text.slice(m.start, m.end)}</mark>);
      at = m.end;
    }
    shown.push(text.slice(at, end));
    return shown;
  };
  return (
    <div class="paper">
      <pre aria-hidden="true">
        {words(0, from)}
        {from < to && <span class="opened">{words(from, to)}</span>}
        {words(to, text.length)}
        {"\n"}
      </pre>
      <textarea
        ref={area}
        aria-label="The pattern as text"
        aria-describedby="status"
        value={text}
        readOnly={!desk.editable.value}
        placeholder={"Paste or type the pattern here.\n\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)"}
        spellcheck={false}
        autocapitalize="off"
        autocomplete="off"
        onInput={(e) => {
          desk.write(e.currentTarget.value);
          if ((e as InputEvent).inputType === "insertFromPaste") pasted();
        }}
        onPaste={(e) => {
          const { selectionStart, selectionEnd } = e.currentTarget;
          desk.pasting(e.clipboardData?.getData("text/plain") ?? "", selectionStart, selectionEnd);
        }}
        onClick={(e) => {
          const { value, selectionStart } = e.currentTarget;
          pointed(value.slice(0, selectionStart).split("\n").length);
        }}
      />
    </div>
  );
}
