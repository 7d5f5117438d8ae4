import "./doors.css";
import { type Signal, useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { api, Refused, type Who } from "../../api";
import { atHome, type Doors as State, doors, drawn, type Invitation, lines, seen } from "./sharing";

const LOOK_MS = 2000;
const REST_MS = 5000;

/** Phones and tablets: sharing, inviting, letting in, showing out. Only beside the machine itself. */
export function Doors() {
  const state = useSignal<State | null>(null);
  const invitation = useSignal<Invitation | null>(null);
  const say = useSignal("");

  async function deed(work: () => Promise<State>): Promise<void> {
    try {
      state.value = await work();
      say.value = "";
    } catch (why) {
      say.value = why instanceof Refused ? why.say : String(why);
    }
  }

  useEffect(() => {
    if (!atHome()) return;
    let over = false;
    let timer: ReturnType<typeof setTimeout>;
    const look = async () => {
      try {
        if (document.visibilityState === "visible") state.value = await doors.look();
      } catch {
        // The shelf says it when the server is away.
      }
      const soon = invitation.value !== null || (state.value?.knocking.length ?? 0) > 0;
      if (!over) timer = setTimeout(() => void look(), soon ? LOOK_MS : REST_MS);
    };
    void look();
    return () => {
      over = true;
      clearTimeout(timer);
    };
  }, [invitation.value === null]);

  const now = state.value;
  if (!now) return null;
  return (
    <section class="doors" aria-label="Phones and tablets">
      <h2>Use a phone or tablet</h2>
      {now.knocking.map((knock) => (
        <Knock key={knock.id} knock={knock} deed={deed} invitation={invitation} />
      ))}
      {now.on ? (
        <Shared now={now} invitation={invitation} say={say} />
      ) : (
        <p>
          Hookside answers on this machine alone. Shared, it also answers to phones and tablets in your house: each is
          let in once, by you, here.
        </p>
      )}
      <p role="status" class={say.value || now.say ? "note" : "said"}>
        {say.value || now.say}
      </p>
      {now.devices.length > 0 && <Devices now={now} deed={deed} />}
      <button
        type="button"
        class={now.on ? "word" : "label"}
        onClick={() => {
          invitation.value = null;
          void deed(() => doors.share(!now.on));
        }}
      >
        {now.on ? "Stop sharing" : "Share in the house"}
      </button>
    </section>
  );
}

type Deed = (work: () => Promise<State>) => Promise<void>;

interface AtTheDoor {
  knock: State["knocking"][number];
  deed: Deed;
  invitation: Signal<Invitation | null>;
}

function Knock({ knock, deed, invitation }: AtTheDoor) {
  const name = useSignal(knock.name);
  const makers = useSignal<string[]>([]);
  const maker = useSignal("");
  useEffect(() => {
    // Mostly it is hers who stands at the machine. Without an answer the name is typed.
    const known = (who: Who) => {
      makers.value = who.makers;
      maker.value ||= who.name || (who.makers[0] ?? "");
    };
    api.who().then(known, () => undefined);
  }, []);
  const here = useRef<HTMLFormElement>(null);
  useEffect(() => here.current?.scrollIntoView({ block: "center" }), []);
  const answer = (letIn: boolean) => {
    invitation.value = null;
    void deed(() => doors.answer(knock.id, letIn, name.value, maker.value));
  };
  return (
    <form
      ref={here}
      class="knock"
      aria-label={`${knock.name} asks to come in`}
      onSubmit={(event) => {
        event.preventDefault();
        answer(true);
      }}
    >
      <p class="asks" role="alert">
        {knock.name} asks to come in. It must show <b>{knock.figures}</b>.
      </p>
      <label>
        <span>What you call it</span>
        <input value={name.value} maxLength={40} onInput={(event) => (name.value = event.currentTarget.value)} />
      </label>
      <label>
        <span>Who works with it (may stay empty)</span>
        <input
          value={maker.value}
          maxLength={40}
          list="makers"
          autocomplete="off"
          onInput={(event) => (maker.value = event.currentTarget.value)}
        />
        <datalist id="makers">
          {makers.value.map((one) => (
            <option key={one} value={one} />
          ))}
        </datalist>
      </label>
      <div class="deeds">
        <button type="submit" class="tape">
          Let it in
        </button>
        <button type="button" class="word" onClick={() => answer(false)}>
          Turn it away
        </button>
      </div>
    </form>
  );
}

interface Open {
  now: State;
  invitation: Signal<Invitation | null>;
  say: Signal<string>;
}

function Shared({ now, invitation, say }: Open) {
  const invite = async () => {
    try {
      invitation.value = await doors.invite();
      say.value = "";
    } catch (why) {
      say.value = why instanceof Refused ? why.say : String(why);
    }
  };
  if (!now.addresses?.length)
    return <p>This machine is on no home network just now. Hookside looks again every few seconds.</p>;
  return (
    <>
      <p>
        Shared with paired devices at{" "}
        {now.addresses.map((address, n) => (
          <span key={address}>
            {n > 0 && " or "}
            <b>{address}</b>
          </span>
        ))}
        .
      </p>
      {invitation.value && !now.knocking.length ? (
        <Invited now={now} invitation={invitation.value} again={invite} />
      ) : (
        !now.knocking.length && (
          <button type="button" class="label" onClick={() => void invite()}>
            Invite a device
          </button>
        )
      )}
    </>
  );
}

function Invited({ now, invitation, again }: { now: State; invitation: Invitation; again: () => Promise<void> }) {
  const left = useSignal(invitation.lasts.typed);
  useEffect(() => {
    const until = Date.now() + invitation.lasts.typed * 1000;
    const ticking = setInterval(() => {
      left.value = Math.max(0, Math.round((until - Date.now()) / 1000));
    }, 1000);
    left.value = invitation.lasts.typed;
    return () => clearInterval(ticking);
  }, [invitation]);
  return (
    <ol class="steps">
      <li>
        <h3>The first time: let it trust this house</h3>
        <img src={drawn(invitation.trust_qr)} alt="The address of the page about trust, as a picture for a camera" />
        <p>
          Point its camera here, or open <b>{now.trust}</b> on it, and do what it says there. The fingerprint is
        </p>
        <p class="print">
          {lines(now.fingerprint ?? "").map((line) => (
            <span key={line}>{line}</span>
          ))}
        </p>
      </li>
      <li>
        <h3>Then: pair it</h3>
        <img src={drawn(invitation.qr)} alt="The invitation, as a picture for a camera" />
        <p>
          Point its camera here, or open <b>{invitation.url.split("#")[0]}</b> on it and type
        </p>
        <p class="typing">{left.value > 0 ? invitation.typed : "too late"}</p>
        <p>
          {left.value > 0
            ? `Good for ${left.value > 60 ? "two minutes" : `${left.value} seconds`}, and once.`
            : "These letters are no longer good."}{" "}
          <button type="button" class="word" onClick={() => void again()}>
            Make new ones
          </button>
        </p>
      </li>
    </ol>
  );
}

function Devices({ now, deed }: { now: State; deed: Deed }) {
  const today = new Date().toISOString().slice(0, 10);
  return (
    <ul class="rows" aria-label="Paired devices">
      {now.devices.map((device) => (
        <li class="row" key={device.id}>
          <p>
            <strong>{device.name}</strong>
            <span class="soft">
              {device.maker && `${device.maker}'s, `}
              {seen(device, today)}
            </span>
          </p>
          <button
            type="button"
            class="word"
            aria-label={`Show out ${device.name}`}
            onClick={() => void deed(() => doors.showOut(device.id))}
          >
            Show out
          </button>
        </li>
      ))}
    </ul>
  );
}
