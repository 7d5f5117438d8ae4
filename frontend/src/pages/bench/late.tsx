import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";

/** A sheet that is fetched when it is first asked for, and then known. */
export function late<P extends object>(fetch: () => Promise<ComponentType<P>>): ComponentType<P> {
  let known: ComponentType<P> | null = null;
  return function Late(props: P) {
    const [Sheet, show] = useState<ComponentType<P> | null>(() => known);
    useEffect(() => {
      if (Sheet) return undefined;
      let here = true;
      void fetch().then((sheet) => {
        known = sheet;
        if (here) show(() => sheet);
      });
      return () => {
        here = false;
      };
    }, []);
    return Sheet && <Sheet {...props} />;
  };
}
