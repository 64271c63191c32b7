/** Where the height is decided: the chance that the floor stands higher somewhere than anything that was read. */
import { useState } from "preact/hooks";
import type { Plan } from "../../wire";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { chanceText, toldChance } from "./chance";

/** Its place is kept free until the engine has told it. */
export function Higher({ plan }: { plan: Plan }) {
  const [open, setOpen] = useState(false);
  const chances = plan.surface.statistics?.higher ?? [];
  const told = toldChance(chances);
  return (
    <>
      <button type="button" class="button wide higher" disabled={!told} data-testid="higher" onClick={() => setOpen(true)}>{told && chanceText(told)}</button>
      {open && told && (
        <Dialog title={t("higher.title")} testid="higher-sheet" onClose={() => setOpen(false)}>
          <p>{t("higher.more", { highest: plan.surface.highest.z })}</p>
          <ul class="lines">{chances.map((chance) => <li key={chance.by} class="line">{chanceText(chance)}</li>)}</ul>
        </Dialog>
      )}
    </>
  );
}
