import { io } from "socket.io-client";

/** The little of a socket that listening needs. */
export interface Line {
  readonly connected: boolean;
  on(event: string, heard: (data: never) => void): void;
  ask(event: string, data: unknown): Promise<unknown>;
  /** Sent while the line is there, in order, or never: sound and expectations of a moment ago help nobody. */
  tell(event: string, data: unknown): void;
  close(): void;
}

const ANSWER_MS = 20_000; // a model may have to be loaded

/** A line of its own, open while hands-free is on: twenty packets a second never stand in front of a move. */
export function openLine(): Line {
  const socket = io({ transports: ["websocket"], forceNew: true, timeout: 4000, reconnectionDelay: 300, reconnectionDelayMax: 2000 });
  socket.on("disconnect", (reason) => {
    if (reason === "io server disconnect") socket.connect();
  });
  return {
    get connected() {
      return socket.connected;
    },
    on: (event, heard) => void socket.on(event, heard as (data: unknown) => void),
    ask: (event, data) => socket.timeout(ANSWER_MS).emitWithAck(event, data),
    tell(event, data) {
      if (socket.connected) socket.emit(event, data);
    },
    close: () => void socket.close(),
  };
}
