/** A drawing of the record with its title and what its lines and colours mean: small on a phone, as wide as the page on paper. */
import type { ComponentChildren } from "preact";
import { PaperSheet } from "../../drawing/Sheet";
import type { Scene } from "../../drawing/scene";
import { isOffice } from "../../words";
import { ScaleKey } from "../common/ScaleKey";
import { scaleEnds, windowFor } from "./drawings";

const ON_PAPER = 700; // px across, as wide as the page
const ON_A_PHONE = 330;
const TALLEST = 0.56; // of its width: drawing, title and key stay on one page

interface FigureProps {
  readonly title: string;
  readonly name: string;
  readonly scene: Scene;
  readonly children?: ComponentChildren;
}

export function DrawingFigure({ title, name, scene, children }: FigureProps) {
  const ends = scaleEnds(scene);
  const onScreen = isOffice.value ? ON_PAPER : ON_A_PHONE;
  return (
    <figure class="record-figure" data-testid={`drawing-${name}`}>
      <figcaption>{title}</figcaption>
      <div class="screen-only"><PaperSheet scene={scene} window={windowFor(scene, onScreen, 1.2)} name={`record-${name}`} /></div>
      <div class="print-only"><PaperSheet scene={scene} window={windowFor(scene, ON_PAPER, TALLEST)} name={`paper-${name}`} /></div>
      {scene.fill && ends && <ScaleKey kind={scene.fill.kind} {...ends} />}
      {children}
      <p class="record-said">{scene.spoken}</p>
    </figure>
  );
}
