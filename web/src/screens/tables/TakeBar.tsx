/** The last word before anything is taken: what the heights mean, what becomes of places read already, how many are taken. */
import { useState } from "preact/hooks";
import { mayWrite, takeReadings, type TakenReading } from "../../state";
import { momentText } from "../../units";
import { reader, t } from "../../words";
import { Choice } from "../common/Choice";
import { go, path, pathOfRoom } from "../common/route";
import { saved, sayOnlyLooks } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { toTake, type Found, type HowToTake } from "./found";

interface TakeBarProps {
  readonly room: RoomView;
  readonly found: readonly Found[];
  readonly how: HowToTake;
  readonly onHow: (changed: Partial<HowToTake>) => void;
  readonly from: "table" | "scan";
  readonly sigma?: number;
  /** The draft that is done with once the readings are taken. */
  readonly draft?: string;
  readonly onTaken?: () => void;
}

function Zero({ how, onHow }: Pick<TakeBarProps, "how" | "onHow">) {
  return (
    <>
      <Choice
        label={t("take.zero")} name="zero" value={how.zero} onChoose={(zero) => onHow({ zero })}
        options={[{ value: "relative", label: t("take.relative") }, { value: "benchmark", label: t("take.benchmark") }]}
      />
      <p class="quiet small">{t(how.zero === "relative" ? "take.relative_more" : "take.benchmark_more")}</p>
    </>
  );
}

function Met({ met, how, onHow }: Pick<TakeBarProps, "how" | "onHow"> & { readonly met: number }) {
  return (
    <>
      <p class="notice" data-testid="already-read">{t("take.met", { met })}</p>
      <Choice
        label={t("take.already")} name="already" value={how.already} onChoose={(already) => onHow({ already })}
        options={[{ value: "again", label: t("take.again") }, { value: "skip", label: t("take.skip") }]}
      />
      <p class="quiet small">{t(how.already === "again" ? "take.again_more" : "take.skip_more")}</p>
    </>
  );
}

/** Where what was taken is seen: readings of the bed where it is checked, any others on the room's own drawing. */
function pathOfTaken(room: string, readings: readonly TakenReading[]): string {
  return pathOfRoom(room, readings.every(({ stage }) => stage === "bed") ? "checking" : null);
}

export function TakeBar({ room, found, how, onHow, from, sigma, draft, onTaken }: TakeBarProps) {
  const { setup, readings, outside, met, isApart } = toTake(found, room.readings, how);
  const [isTaking, setIsTaking] = useState(false);
  const take = async () => {
    if (!mayWrite.value) { sayOnlyLooks(); return; }
    const here = path.peek();
    setIsTaking(true);
    const name = t(`take.named_${from}`, { at: momentText(new Date().toISOString(), reader.value) });
    const standing = { ...setup, name, instrument: from, ...(sigma === undefined ? {} : { sigma }) };
    const isSaved = await saved(takeReadings(room.id, standing, readings, draft === undefined ? {} : { draft })).finally(() => setIsTaking(false));
    if (!isSaved) return;
    onTaken?.();
    if (path.peek() === here) go(pathOfTaken(room.id, readings)); // who has gone on meanwhile stays there
  };
  return (
    <section class="stack tight" data-testid="take">
      {found.some(({ z }) => z !== null) && <Zero how={how} onHow={onHow} />}
      {outside > 0 && <p class="caution" data-testid="take-outside">{t("take.outside", { outside })}</p>}
      {met > 0 && <Met met={met} how={how} onHow={onHow} />}
      {isApart && <p class="caution" data-testid="take-apart">{t("take.apart")}</p>}
      <button type="button" class="button main wide" data-testid="take-readings" disabled={isTaking || readings.length === 0} onClick={() => void take()}>{t("take.do", { count: readings.length })}</button>
      <p class="quiet small">{t("take.undo")}</p>
    </section>
  );
}
