/** A screen in a file of its own, loaded when it is first opened; the service worker keeps the file with the others. */
import { signal } from "@preact/signals";
import type { ComponentType } from "preact";
import { useEffect } from "preact/hooks";
import { sync } from "../state/status";
import { t } from "../words";

/** Asked for again each time the screen is opened, until it is there. A screen that came stays. */
export function later<Props extends object>(load: () => Promise<ComponentType<Props>>): ComponentType<Props> {
  const came = signal<ComponentType<Props> | null>(null);
  const hasFailed = signal(false);
  const fetchIt = () => {
    hasFailed.value = false;
    load().then((screen) => (came.value = screen), (error: unknown) => {
      console.warn("A screen could not be loaded:", error);
      hasFailed.value = true;
    });
  };
  return function Later(props: Props) {
    useEffect(() => { if (came.peek() === null) fetchIt(); }, []);
    const Screen = came.value;
    if (Screen !== null) return <Screen {...props} />;
    return hasFailed.value ? <NotHere onAgain={fetchIt} /> : <Coming />;
  };
}

/** Nothing to see while the screen comes as it should (the style sheet counts). */
function Coming() {
  return <main class="page narrow" aria-busy="true"><p class="notice not-loaded" role="status">{t("screen.coming")}</p></main>;
}

/** The app is loaded again only where there is a network: without one it might not come back. */
function NotHere({ onAgain }: { onAgain: () => void }) {
  return (
    <main class="page narrow" data-testid="screen-not-here">
      <p class="caution" role="alert">{t("screen.not_here")}</p>
      <button type="button" class="button main wide" data-testid="screen-again" onClick={onAgain}>{t("screen.again")}</button>
      {sync.value.online && <button type="button" class="button wide" data-testid="load-again" onClick={() => location.reload()}>{t("screen.load_again")}</button>}
    </main>
  );
}
