/** The key by which somebody who looked lets a milestone pass; it opens the sheet that asks how, who and when. */
import { useState } from "preact/hooks";
import { mayWrite } from "../../state";
import { t } from "../../words";
import { sayOnlyLooks } from "../common/saving";
import type { Countdown } from "./standing";
import { TickSheet } from "./TickSheet";

export function LooksKey({ room, one, isNext = false }: { room: string; one: Countdown; isNext?: boolean }) {
  const [open, setOpen] = useState(false);
  const isDue = isNext && (one.state === "may_be_ready" || one.state === "should_be_ready");
  const openSheet = () => { if (mayWrite.value) setOpen(true); else sayOnlyLooks(); };
  return (
    <>
      <button type="button" class={isDue ? "button main wide" : "button wide"} data-testid={isNext ? "look-next" : `look-${one.milestone}`} onClick={openSheet}>{t("tick.looked")}</button>
      {open && <TickSheet room={room} one={one} onClose={() => setOpen(false)} />}
    </>
  );
}
