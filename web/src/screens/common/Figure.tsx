/** A figure that explains itself: a tap shows the formula, what went in, and the source it rests on. */
import { useState } from "preact/hooks";
import type { Explanation } from "../../wire";
import { t, told } from "../../words";
import { inputText } from "./inputs";
import { Dialog } from "./Dialog";
import { explanationOf, type Explained as Explaining } from "./plan";
import type { Range } from "./ranges";

interface FigureProps {
  readonly label: string;
  readonly value: string;
  readonly plan: Explaining;
  readonly path: string;
  readonly size?: "plain" | "large" | "giant";
  readonly note?: string;
  /** Given where the screen put the figure together itself. */
  readonly explanation?: Explanation;
  /** How sure the figure is; while that is not reckoned yet its line is kept free, so that nothing jumps. */
  readonly range?: Range;
  /** How much more or less than what it is held against; its line is kept free where it is the same. */
  readonly by?: string;
}

function Inputs({ inputs }: { inputs: Explanation["inputs"] }) {
  return (
    <dl class="inputs">
      {Object.entries(inputs).map(([name, value]) => (
        <div key={name}><dt>{told("input", name, {}, name.replaceAll("_", " "))}</dt><dd>{inputText(name, value)}</dd></div>
      ))}
    </dl>
  );
}

/** A formula, what went in, and what it rests on. */
export function Explained({ explanation }: { explanation: Explanation }) {
  return (
    <>
      <h3>{t("explain.formula")}</h3>
      <p class="formula">{told("formula", explanation.code, explanation.inputs, explanation.formula)}</p>
      {Object.keys(explanation.inputs).length > 0 && <h3>{t("explain.inputs")}</h3>}
      <Inputs inputs={explanation.inputs} />
      <h3>{t("explain.source")}</h3>
      <p data-testid="explain-source">{told("source", explanation.source_code, {}, explanation.source)}</p>
    </>
  );
}

/** The whole number largest, its fraction and its unit smaller, so that every shim fits across the screen. */
export function Giant({ text }: { text: string }) {
  const [, whole = "", part = "", unit = ""] = /^(\S*?)(\u00a0\d+\/\d+\u2033)?(\u202fmm)?$/.exec(text) ?? [null, text];
  return <>{whole}{part && <span class="part">{part}</span>}{unit && <span class="unit">{unit}</span>}</>;
}

/** How sure the figure is, where it is opened. */
function Sureness({ text, explanation }: { text: string; explanation: Explanation | null }) {
  return (
    <>
      <h3>{t("range.title")}</h3>
      <p class="formula" data-testid="explain-range">{text}</p>
      <p>{t("range.more")}</p>
      {explanation && <Explained explanation={explanation} />}
    </>
  );
}

export function Figure({ label, value, plan, path, size = "plain", note, explanation: own, range, by }: FigureProps) {
  const [open, setOpen] = useState(false);
  const explanation = own ?? explanationOf(plan, path);
  const testid = `figure-${path.replace(/[[\].]+/g, "-")}`;
  const face = (
    <>
      <span class="label">{label}</span>
      <span class="number" data-testid={`${testid}-value`}>{size === "giant" ? <Giant text={value} /> : value}</span>
      {by !== undefined && <span class="by" data-testid={`${testid}-by`}>{by || "\u00a0"}</span>}
      {note && <span class="note">{note}</span>}
      {range && <span class="note sureness" data-testid={`${testid}-range`}>{range.text ?? "\u00a0"}</span>}
    </>
  );
  if (!explanation) return <div class={`figure ${size}`} data-testid={testid}>{face}</div>;
  return (
    <>
      <button type="button" class={`figure explained ${size}`} data-testid={testid} onClick={() => setOpen(true)}>{face}</button>
      {open && <Dialog title={`${label}: ${value}`} testid="explain" onClose={() => setOpen(false)}><Explained explanation={explanation} />{range?.text && <Sureness text={range.text} explanation={explanationOf(plan, range.path)} />}</Dialog>}
    </>
  );
}
