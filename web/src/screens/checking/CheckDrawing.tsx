/** The drawing of the check: three layers, what their signs mean, and the same in a table one tap away. */
import { useMemo, useState } from "preact/hooks";
import { Drawing } from "../../drawing/Drawing";
import { gapsOf, preferences } from "../../state";
import type { Flatness } from "../../wire";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import { offText, type FlatnessView } from "../common/flatness";
import { baseOf, reachOf, withFlatness, type FlatLayer } from "../common/flatnessLayers";
import { bareScene } from "../common/roomFigure";
import { ScaleKey } from "../common/ScaleKey";
import type { RoomView } from "../common/useRoom";
import { EdgeKey, WorkKey } from "./Keys";
import { MapTable } from "./MapTable";

const LAYERS = ["height", "gaps", "work"] as const satisfies readonly FlatLayer[];

interface CheckDrawingProps {
  readonly room: RoomView;
  readonly view: FlatnessView | null;
  readonly layer: FlatLayer;
  readonly onLayer: (layer: FlatLayer) => void;
  readonly onOpen: (id: string) => void;
}

function LayerKey({ flatness, layer }: { flatness: Flatness; layer: FlatLayer }) {
  if (layer === "gaps") return <EdgeKey flatness={flatness} />;
  if (layer === "work") return <WorkKey flatness={flatness} />;
  const [reach, base] = [reachOf(flatness), baseOf(flatness)];
  if (flatness.triangles.length === 0) return null;
  return (
    <>
      <ScaleKey kind="flat" low={t("checking.low", { off: offText(-reach) })} high={t("checking.high", { off: offText(reach) })} />
      {base !== 0 && <p class="quiet small" data-testid="map-base">{t("checking.about_mean", { mean: offText(base) })}</p>}
    </>
  );
}

export function CheckDrawing({ room, view, layer, onLayer, onOpen }: CheckDrawingProps) {
  const [isTable, setTable] = useState(false);
  const { language, units } = preferences.value;
  const gaps = gapsOf(room.id).value;
  const flatness = view?.flatness ?? null;
  const bare = useMemo(() => bareScene(room.fields), [room.fields, language, units]);
  const scene = useMemo(() => withFlatness(bare, flatness, layer, gaps), [bare, flatness, layer, gaps, language, units]);
  const touch = [...(layer === "work" ? [] : scene.points), ...scene.works, ...scene.edges];
  return (
    <>
      <Drawing scene={scene} name="checking" touch={touch} onOpen={onOpen} />
      {flatness && <LayerKey flatness={flatness} layer={layer} />}
      {flatness && flatness.points.length > 0 && (
        <>
          <div class="layers-row">
            <Choice label={t("layer.label")} name="check-layer" quiet value={layer} onChoose={onLayer} options={LAYERS.map((value) => ({ value, label: t(`checking.layer.${value}`) }))} />
            <button type="button" class="button" data-testid="map-table" aria-expanded={isTable} aria-pressed={isTable} onClick={() => setTable(!isTable)}>{t("checking.table")}</button>
          </div>
          {isTable && <MapTable flatness={flatness} gaps={gaps} layer={layer} />}
        </>
      )}
    </>
  );
}
