/** The four moments of filling, each by one big tap that acts on the right batch or section by itself. */
import { cutOffSection, fillHere, markSection, mixBatch, placeBatch } from "../../state";
import { clockText } from "../../units";
import { reader, t } from "../../words";
import { batchState, type FillActs, type SectionNow } from "../common/filled";
import { saved } from "../common/saving";
import { useNow } from "../common/useNow";

const HALF_MINUTE_MS = 30_000;

interface TapProps {
  readonly testid: string;
  readonly label: string;
  readonly on: string;
  readonly isDue: boolean;
  readonly act: (() => Promise<unknown>) | null;
  readonly room: string;
}

function Tap({ testid, label, on, isDue, act, room }: TapProps) {
  const tapped = () => {
    if (act === null) return;
    fillHere(room);
    void saved(act());
  };
  return (
    <button type="button" class={isDue ? "button tap main" : "button tap"} data-testid={testid} disabled={act === null} onClick={tapped}>
      <span class="what">{label}</span>
      <span class="on">{on}</span>
    </button>
  );
}

function sectionText(one: SectionNow | null): string {
  return one === null ? t("filling.no_section") : t("filling.section", { section: `${one.section.order}` });
}

/** What is due next stands out: a batch that can still be used before the next one, channels before another section. */
export function Taps({ room, acts }: { room: string; acts: FillActs }) {
  const { mix, place, cutOff, pack } = acts;
  const now = useNow(HALF_MINUTE_MS);
  const isWhole = cutOff?.state === "placed";
  const isUsable = place !== null && batchState(place.batch, now) !== "late";
  return (
    <div class="taps">
      <Tap room={room} testid="tap-mixed" label={t("filling.mixed")} on={mix === null ? t("filling.all_mixed") : sectionText(mix)} isDue={place === null && pack === null && !isWhole && mix !== null}
        act={mix && (() => mixBatch(room, mix.section))} />
      <Tap room={room} testid="tap-placed" label={t("filling.placed")} on={place === null ? t("filling.no_batch") : t("filling.of_batch", { at: clockText(place.batch.mixedAt, reader.value) })} isDue={isUsable}
        act={place && (() => placeBatch(room, place.batch.id, place.into?.section ?? null, place.isLast))} />
      <Tap room={room} testid="tap-cut" label={t("filling.cut_off")} on={sectionText(cutOff)} isDue={isWhole}
        act={cutOff && (() => cutOffSection(room, cutOff.section))} />
      <Tap room={room} testid="tap-packed" label={t("filling.packed")} on={pack === null ? t("filling.no_channels") : sectionText(pack)} isDue={pack !== null}
        act={pack && (() => markSection(room, pack.section, "channels_at"))} />
    </div>
  );
}
