import { api } from "../../api";
import { go, toBench } from "../../route";

let waits = "";

/** The line that was left for the bench that is opened now; it is said once. */
export function carried(): string {
  const say = waits;
  waits = "";
  return say;
}

/** The same again: on to its bench, which says what came along. */
export async function beginAgain(making: number): Promise<void> {
  const { id, say } = await api.again(making);
  waits = say;
  go(toBench(id));
}
