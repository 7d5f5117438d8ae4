import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api } from "../../api";
import type { LinkState } from "../../follow/link";
import type { FinishItem } from "../../generated/pattern";
import { hers } from "./colours/hers";

/**
 * What is to do when every part is worked; null until it is known. It is fetched when it is wanted, and once before, as
 * soon as the making is here, so that a device that goes away has it.
 */
export function useFinishList(id: number, link: LinkState, wanted: boolean): FinishItem[] | null {
  const items = useSignal<FinishItem[] | null>(null);
  useEffect(() => {
    if (link !== "live" && !wanted) return undefined;
    let here = true;
    // Without an answer it is not known, and the bench says that it has to be looked at.
    const fetch = () => api.finish(id).then((found) => here && (items.value = found), () => undefined);
    if (wanted) {
      void fetch();
      return () => {
        here = false;
      };
    }
    void api.finishKept(id).then((kept) => (kept || !here ? undefined : fetch()));
    return () => {
      here = false;
    };
  }, [id, link, wanted]);
  return inHers(items.value);
}

/** The list in her words for the colours. */
export function inHers<T extends FinishItem[] | null>(items: T): T {
  const said = hers.value?.text;
  return said && items ? (items.map((item) => ({ ...item, text: said(item.text), more: said(item.more), spoken: said(item.spoken) })) as T) : items;
}
