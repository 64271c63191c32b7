/** Batches that wait, the ones that will not be used in time, and every batch of the room to look at and correct. */
import { useState } from "preact/hooks";
import { deleteRecord, editBatch, mayWrite, placeOf, type Row } from "../../state";
import { clockText } from "../../units";
import { reader, t } from "../../words";
import { Choice } from "../common/Choice";
import { Dialog } from "../common/Dialog";
import { batchState, type FillingNow, type FreshBatch } from "../common/filled";
import { Figure } from "../common/Figure";
import { Link } from "../common/Link";
import { Moment } from "../common/Moment";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { useNow } from "../common/useNow";

const HALF_MINUTE_MS = 30_000;
const SIZES = [{ value: "1", size: 1 }, { value: "0.75", size: 0.75 }, { value: "0.5", size: 0.5 }, { value: "0.25", size: 0.25 }] as const;

/** Said plainly, with the one tap that follows from it. */
function Warning({ batch, isLate }: { batch: FreshBatch; isLate: boolean }) {
  const gone = () => void saved(editBatch(batch.id, { thrown_at: new Date().toISOString() }));
  return (
    <div class="suspect-band" data-testid="batch-warning" data-batch={batch.id}>
      <p>{t(isLate ? "filling.too_old" : "filling.not_in_time", { at: batch.mixedAt })}</p>
      {mayWrite.value && <button type="button" class={isLate ? "button throw main" : "button throw"} data-testid="throw-away" onClick={gone}>{t("filling.thrown")}</button>}
    </div>
  );
}

export function BatchWarnings({ fresh }: { fresh: readonly FreshBatch[] }) {
  const now = useNow(HALF_MINUTE_MS);
  const told = fresh.map((batch) => ({ batch, isLate: batchState(batch, now) === "late" })).filter(({ batch, isLate }) => isLate || !batch.isInTime);
  return <>{told.map(({ batch, isLate }) => <Warning key={batch.id} batch={batch} isLate={isLate} />)}</>;
}

interface BatchSheetProps {
  readonly row: Row<"batch">;
  readonly filling: FillingNow;
  readonly onClose: () => void;
}

function BatchSheet({ row, filling, onClose }: BatchSheetProps) {
  const { id, fields } = row;
  const set = (changed: Parameters<typeof editBatch>[1]) => void saved(editBatch(id, changed));
  const sections = filling.sections.map(({ section }) => ({ value: section.id, label: `${section.order}` }));
  const choose = (chosen: string) => {
    const one = filling.sections.find(({ section }) => section.id === chosen);
    if (one) set(placeOf(one.section));
  };
  const remove = () => void saved(deleteRecord("batch", id)).then((isSaved) => { if (isSaved) onClose(); });
  const told = filling.clock?.batches.findIndex((one) => one.id === id) ?? -1;
  const clock = told < 0 ? null : filling.clock;
  const size = SIZES.find((one) => one.size === (fields.size ?? 1))?.value ?? "1";
  return (
    <Dialog title={t("filling.batch_of", { at: fields.mixed_at ?? "" })} testid="batch-sheet" onClose={onClose}>
      <div class="stack tight small-choices">
        <Moment name={`${id}:mixed`} testid="batch-mixed" label={t("named.batch.mixed_at")} at={fields.mixed_at} canRemove={false} onSet={(at) => set({ mixed_at: at })} />
        <Moment name={`${id}:placed`} testid="batch-placed" label={t("named.batch.placed_at")} at={fields.placed_at} onSet={(at) => set({ placed_at: at })} />
        <Moment name={`${id}:thrown`} testid="batch-thrown" label={t("named.batch.thrown_at")} at={fields.thrown_at} onSet={(at) => set({ thrown_at: at })} />
        {clock && <Figure label={t("filling.use_by_title")} value={clockText(clock.batches[told]?.use_by ?? "", reader.value)} plan={clock} path={`batches[${told}].use_by`} />}
        {mayWrite.value && <Choice label={t("named.batch.section")} name="batch-section" value={fields.section ?? ""} options={sections} onChoose={choose} />}
        {mayWrite.value && <Choice label={t("filling.how_full")} name="batch-size" value={size} options={SIZES.map(({ value }) => ({ value, label: t(`batch_size.${value}`) }))} onChoose={(value) => set({ size: Number(value) })} />}
        <div class="row even">
          <Link to={pathOfHistory("batch", id)} class="button" testid="batch-history">{t("history.open")}</Link>
          {mayWrite.value && <button type="button" class="button danger" data-testid="remove-batch" onClick={remove}>{t("remove")}</button>}
        </div>
      </div>
    </Dialog>
  );
}

function outcomeText({ fields }: Row<"batch">, fresh: readonly FreshBatch[]): string {
  if (fields.thrown_at) return t("filling.batch_thrown", { at: fields.thrown_at });
  if (fields.placed_at) return t("filling.batch_placed", { at: fields.placed_at });
  const useBy = fresh.find(({ mixedAt }) => mixedAt === fields.mixed_at)?.useBy;
  return useBy === undefined ? t("filling.batch_in_section") : t("filling.use_by", { at: new Date(useBy).toISOString() });
}

function BatchLine({ row, filling, onOpen }: { row: Row<"batch">; filling: FillingNow; onOpen: () => void }) {
  const { fields } = row;
  const order = filling.sections.find(({ section }) => section.id === fields.section)?.section.order;
  return (
    <li>
      <button type="button" class="place-line" data-testid="batch-line" onClick={onOpen}>
        <strong>{clockText(fields.mixed_at ?? "", reader.value)}</strong>
        <span>{outcomeText(row, filling.fresh)}</span>
        {order !== undefined && <span class="quiet">{t("filling.section", { section: `${order}` })}</span>}
      </button>
    </li>
  );
}

export function Batches({ filling }: { filling: FillingNow }) {
  const [opened, setOpened] = useState<string | null>(null);
  const rows = [...filling.batches].reverse();
  const row = rows.find(({ id }) => id === opened);
  if (rows.length === 0) return null;
  return (
    <section class="stack tight">
      <h3>{t("filling.batches_title")}</h3>
      <ul class="places">{rows.map((one) => <BatchLine key={one.id} row={one} filling={filling} onOpen={() => setOpened(one.id)} />)}</ul>
      {row && <BatchSheet row={row} filling={filling} onClose={() => setOpened(null)} />}
    </section>
  );
}
