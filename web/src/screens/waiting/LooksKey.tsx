/** The key by which somebody who looked lets a milestone pass; it opens the sheet that asks how, who and when. */
import { useState } from "preact/hooks";
import { mayWrite } from "../../state";
import { t } from "../../words";
import { sayOnlyLooks } from "../common/saving";
import type { Countdown } from "./standing";
import { TickSheet } from "./TickSheet";

export function LooksKey({ room, one, isMain = false }: { room: string; one: Countdown; isMain?: boolean }) {
  const [open, setOpen] = useState(false);
  const openSheet = () => { if (mayWrite.value) setOpen(true); else sayOnlyLooks(); };
  return (
    <>
      <button type="button" class={isMain ? "button main wide" : "button wide"} data-testid={isMain ? "look-next" : `look-${one.milestone}`} onClick={openSheet}>{t("tick.looked")}</button>
      {open && <TickSheet room={room} one={one} onClose={() => setOpen(false)} />}
    </>
  );
}
