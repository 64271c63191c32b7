/** What opens where the drawing of the check is tapped: a reading, a place to read, a bar, a place to work over, a measured gap. */
import { gapsOf, mayWrite, setDraft, type Row } from "../../state";
import { distance, type Place } from "../../drawing/camera";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { depthToDo, gapText, nearText, offText, ruleText, verdictText, type FlatnessView } from "../common/flatness";
import { placeText } from "../common/roomFigure";
import { go, pathOfCheck } from "../common/route";
import type { RoomView } from "../common/useRoom";
import { ReadingDialog } from "../levels/ReadingDialog";
import { draftFromTarget, targetDraft } from "../levels/round";
import { GapSheet } from "./GapSheet";
import { edgeDraft } from "./edge/laid";

interface OpenedProps {
  readonly room: RoomView;
  readonly view: FlatnessView | null;
  readonly id: string | null;
  readonly onClose: () => void;
}

interface PlaceProps extends OpenedProps {
  readonly at: Place;
  readonly title: string;
  readonly facts: readonly (readonly [string, string])[];
}

function ReadHere({ room, at, onClose }: Pick<PlaceProps, "room" | "at" | "onClose">) {
  if (!mayWrite.value) return null;
  const lead = () => {
    void setDraft(targetDraft(room.id, "bed"), draftFromTarget({ place: at }));
    onClose();
    go(pathOfCheck(room.id, "read"));
  };
  return <button type="button" class="button main wide" data-testid="read-here" onClick={lead}>{t("next.read")}</button>;
}

function PlaceDialog({ title, facts, ...props }: PlaceProps) {
  return (
    <Dialog title={title} testid="bed-place" onClose={props.onClose}>
      <dl class="inputs">{facts.map(([name, value]) => <div key={name}><dt>{name}</dt><dd>{value}</dd></div>)}</dl>
      <ReadHere {...props} />
    </Dialog>
  );
}

/** A straightedge where it lies worst, and the way to lay one there by hand. */
function EdgeDialog({ room, view, id, onClose }: OpenedProps & { readonly id: string }) {
  const [kind, number] = id.split("-");
  const check = view?.flatness.checks[Number(number)];
  const lying = kind === "hump" ? check?.hump : check?.gap;
  if (!check || !lying) return null;
  const lay = () => {
    void setDraft(edgeDraft(room.id), JSON.stringify({ from: lying.from, to: lying.to }));
    onClose();
    go(pathOfCheck(room.id, "edge"));
  };
  const facts = [
    [t(kind === "hump" ? "checking.hump" : "checking.gap"), `${gapText(lying.gap)} ± ${gapText(lying.sigma)}`],
    [t("checking.limit_name"), gapText(check.limit)], [t("reading.place"), placeText(lying.at)],
  ] as const;
  return (
    <Dialog title={t("checking.under", { rule: ruleText(check.length) })} testid="bed-edge" onClose={onClose}>
      <p>{verdictText(check.verdict)}. {nearText(check)}</p>
      <dl class="inputs">{facts.map(([name, value]) => <div key={name}><dt>{name}</dt><dd>{value}</dd></div>)}</dl>
      <button type="button" class="button main wide" data-testid="lay-here" onClick={lay}>{t("checking.lay_here")}</button>
    </Dialog>
  );
}

const ONE_PLACE = 1; // mm

/** The reading of the bed at a place, the newest. */
function readingAt({ readings }: RoomView, at: Place): Row<"reading"> | undefined {
  return readings.filter(({ fields }) => fields.stage === "bed" && fields.at && distance(fields.at, at) <= ONE_PLACE).at(-1);
}

function OffDialog(props: OpenedProps & { readonly index: number }) {
  const { room, view, index, onClose } = props;
  const point = view?.flatness.points[index];
  if (!point) return null;
  const [x, y, z] = point;
  const reading = readingAt(room, [x, y]);
  if (reading) return <ReadingDialog reading={reading} plan={room.plan} onClose={onClose} />;
  return <PlaceDialog {...props} at={[x, y]} title={t("checking.off_title")} facts={[[t("reading.place"), placeText([x, y])], [t("checking.off"), offText(z)]]} />;
}

export function OpenedOnBed(props: OpenedProps) {
  const { room, view, id, onClose } = props;
  const gap = gapsOf(room.id).value.find((row) => id === `wedge-${row.id}`);
  if (id === null) return null;
  if (gap) return <GapSheet gap={gap} view={view} onClose={onClose} />;
  const work = view?.flatness.work.find((one) => one.id === id);
  if (work) {
    const facts = [[t(`checking.${work.way}`), depthToDo(work.depth)], [t("reading.place"), placeText(work.at)]] as const;
    return <PlaceDialog {...props} at={work.at} title={work.id} facts={facts} />;
  }
  const [kind, number] = id.split("-");
  const next = kind === "next" ? view?.flatness.next_readings[Number(number)] : undefined;
  if (next) return <PlaceDialog {...props} at={next} title={t("next.title", { number: Number(number) + 1 })} facts={[[t("reading.place"), placeText(next)]]} />;
  return kind === "off" ? <OffDialog {...props} index={Number(number)} /> : <EdgeDialog {...props} id={id} />;
}
