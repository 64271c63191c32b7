/** A line of heights for F-numbers: typed one after another, equally far apart, and kept as one line. */
import { useEffect, useState } from "preact/hooks";
import { Drawing } from "../../../drawing/Drawing";
import type { Place } from "../../../drawing/camera";
import { addHeightLine, clearDraft, mayWrite, preferences } from "../../../state";
import { lengthText } from "../../../units";
import { reader, t } from "../../../words";
import { Choice } from "../../common/Choice";
import { Dialog } from "../../common/Dialog";
import { Entry } from "../../common/Entry";
import { flatnessOf } from "../../common/flatness";
import { flatFill } from "../../common/flatnessLayers";
import { formOf, type Form } from "../../common/form";
import { Missing } from "../../common/Missing";
import { RoomFrame } from "../../common/RoomFrame";
import { bareScene } from "../../common/roomFigure";
import { go, pathOfRoom } from "../../common/route";
import { saved } from "../../common/saving";
import { offerStepBack } from "../../common/stepBack";
import { useAwake } from "../../common/useAwake";
import { useRoom } from "../../common/useRoom";
import { ValueField } from "../../common/ValueField";
import { EMPTY_LINE, FEWEST, fieldsFromLine, spacingOf, type LineForm } from "./line";

const STEPS = { least: 10, most: 5000 } as const; // mm: as the engine takes them

function spacingFault(spacing: number): string | null {
  return spacing < STEPS.least || spacing > STEPS.most ? t("checking.spacing_fault", STEPS) : null;
}

/** How it is read and how far apart: asked before the first, changed any time. */
function How({ room, form, onClose }: { room: string; form: Form<LineForm>; onClose: () => void }) {
  const { values } = form;
  return (
    <Dialog title={t("checking.line_how")} testid="line-how" onClose={onClose}>
      <Choice label={t("checking.line_way")} name="line-way" value={values.way} onChoose={(way) => form.set({ way })} options={(["down", "up"] as const).map((value) => ({ value, label: t(`checking.line_${value}`) }))} />
      <ValueField
        name={`${room}:line-spacing`} label={t("checking.spacing")} shown={lengthText(spacingOf(values, preferences.value.units), reader.value)} measure="length" note={t("checking.spacing_more")}
        isChanged={values.spacing !== null} onReset={() => form.set({ spacing: null })} faultOf={spacingFault} onValue={(spacing) => form.set({ spacing })}
      />
      <p class="quiet">{t("checking.line_more")}</p>
    </Dialog>
  );
}

function lastText({ heights }: LineForm): string {
  const last = heights.at(-1);
  return last ? lengthText(last.mm, reader.value) : t("checking.line_begin");
}

function Typing({ room, form }: { room: string; form: Form<LineForm> }) {
  const [isHow, setHow] = useState(false);
  const { values } = form;
  const { units } = preferences.value;
  const draft = `height:${room}`;
  const count = values.heights.length;
  useEffect(() => offerStepBack(count === 0 ? null : () => form.set({ heights: values.heights.slice(0, -1) })));
  const add = (mm: number, typed: string) => { form.set({ heights: [...values.heights, { mm, typed }] }); void clearDraft(draft); };
  const keep = () => void saved(addHeightLine(room, fieldsFromLine(values, units), { draft: form.draft })).then((isSaved) => { if (isSaved) go(pathOfRoom(room, "checking")); });
  return (
    <>
      <div class="level-row">
        <button type="button" class="button note" data-testid="line-how-open" onClick={() => setHow(true)}>
          <span class="from-where">{t("checking.line_every", { spacing: spacingOf(values, units) })}</span>
          <span class="note-line">{t(`checking.line_${values.way}`)}</span>
        </button>
        <span class="button last" data-testid="line-last"><span class="small">{t("levels.last")}</span><span>{lastText(values)}</span></span>
        <button type="button" class="button main" data-testid="keep-line" disabled={count < FEWEST} onClick={keep}>{t("checking.keep_line", { heights: count })}</button>
      </div>
      <Entry
        what={t("checking.line_here", { number: count + 1, along: count * spacingOf(values, units) })} draft={draft} measure="length" signed={values.way === "up"} goesOn
        nextLabel={t("keys.next")} onDone={add}
      />
      {isHow && <How room={room} form={form} onClose={() => setHow(false)} />}
    </>
  );
}

/** Where the line begins and which way it runs: two taps, where somebody cares to say. */
function placed({ from, to }: LineForm, [x, y]: Place): Partial<LineForm> {
  const at: Place = [Math.round(x), Math.round(y)];
  return from && !to ? { to: at } : { from: at, to: null };
}

export function HeightLine({ id }: { id: string }) {
  useAwake();
  const room = useRoom(id);
  const form = formOf<LineForm>(`height-line:${id}`, EMPTY_LINE);
  if (!room) return <Missing />;
  const { from, to } = form.values;
  const flatness = flatnessOf(room)?.flatness;
  const scene = { ...bareScene(room.fields), ...(flatness ? { fill: flatFill(flatness) } : {}), cut: from && { from, to: to ?? from, at: null } };
  return (
    <RoomFrame room={room} step="checking" part="heights" still="keys" drawing={<Drawing scene={scene} name="heights" touch={[]} onPlace={(at) => form.set(placed(form.values, at))} />}>
      {mayWrite.value ? <Typing room={id} form={form} /> : <p class="notice">{t("viewer.more")}</p>}
    </RoomFrame>
  );
}
