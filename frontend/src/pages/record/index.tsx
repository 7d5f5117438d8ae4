import "./record.css";
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, Refused, type Told } from "../../api";
import { toBench, toShelf } from "../../route";
import { Plot } from "./Plot";
import { byTime, duration, instant, stitches, timeLeft, workLeft } from "./words";

/** What was worked when, how fast, and how long it still takes. */
export function RecordPage({ id }: { id: number }) {
  const told = useSignal<Told | null>(null);
  const trouble = useSignal("");
  useEffect(() => {
    document.title = "Record · Hookside";
    let here = true;
    api
      .record(id)
      .then((found) => here && (told.value = found))
      .catch((why: unknown) => here && (trouble.value = why instanceof Refused ? why.say : String(why)));
    return () => {
      here = false;
    };
  }, [id]);
  const found = told.value;
  return (
    <main class="page record">
      <nav>
        <a class="word" href={toShelf}>
          Shelf
        </a>
        <a class="word" href={toBench(id)}>
          The bench
        </a>
      </nav>
      <h1>{found ? found.title : "Record"}</h1>
      {trouble.value && <p role="alert">{trouble.value}</p>}
      {found && <Sheet told={found} id={id} />}
    </main>
  );
}

function Sheet({ told, id }: { told: Told; id: number }) {
  const time = timeLeft(told);
  const newest = [...told.sittings].reverse();
  return (
    <>
      <section>
        <h2>Left to work</h2>
        <p class="large">{time.say}</p>
        <p>{workLeft(told)}</p>
        {time.basis && <p class="soft">{time.basis}</p>}
        {told.runs.length > 1 && (
          <dl class="table">
            {told.runs.map((run) => [
              <dt key={run.run}>
                {run.piece || "Piece"}
                {run.copies > 1 ? `, ${run.number} of ${run.copies}` : ""}
              </dt>,
              <dd key={`${run.run}.`}>{run.stitches === 0 ? "every stitch made" : `${stitches(run.stitches)} left of ${run.stitches_of}`}</dd>,
            ])}
          </dl>
        )}
      </section>
      <section>
        <h2>Worked</h2>
        {newest.length === 0 ? (
          <p>Not a stitch yet.</p>
        ) : (
          <p>
            {duration(told.worked_seconds / 60)} in {newest.length === 1 ? "one sitting" : `${newest.length} sittings`}
            {told.pace ? `, lately ${told.pace.value.toFixed(0)} stitches a minute` : ""}.
            {told.pulled_out ? ` ${stitches(told.pulled_out)} pulled out on the way.` : ""}
          </p>
        )}
        <Plot sittings={told.sittings} />
        <ul class="plain-list">
          {newest.map((one) => (
            <li key={one.begun}>
              <b>{instant(one.begun)}</b>{" "}
              <span>
                {stitches(one.stitches)} in {duration((one.ended - one.begun) / 60)}
                {one.a_minute === null ? "" : `, ${one.a_minute.toFixed(0)} a minute`}
                {one.pieces.filter(Boolean).length > 0 ? `. ${one.pieces.join(", ")}` : ""}
              </span>
            </li>
          ))}
        </ul>
      </section>
      {told.notes.length > 0 && (
        <section>
          <h2>Your notes</h2>
          <ul class="plain-list">
            {byTime(told.notes).map((note) => (
              <li key={note.note}>
                <b>{[note.piece, note.place].filter(Boolean).join(", ")}</b> <span>{note.text}</span>
              </li>
            ))}
          </ul>
        </section>
      )}
      <section>
        <h2>Take it along</h2>
        <p class="deeds">
          <a class="word" href={`/api/makings/${id}/record.csv`} download>
            Sittings as a table (CSV)
          </a>
          <a class="word" href={`/api/makings/${id}/record`} download={`making-${id}.json`}>
            All of it (JSON)
          </a>
        </p>
      </section>
    </>
  );
}
