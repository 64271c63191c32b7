/** How flat a scanned bed is, by all of its points: one straightedge after the other, and how far the scan may be believed. */
import type { FlatCheck, ScanFlatness } from "../../wire";
import { t } from "../../words";

function Check({ check }: { check: FlatCheck }) {
  const { length, limit, spacing, noise_gap, verdict, sure, decides } = check;
  const isWell = verdict === "within";
  return (
    <li class="stack tight">
      <p class={isWell ? "notice" : "caution"} data-testid={`flat-${verdict}`}>
        {t("scan.flat_under", { length, limit })} {t(decides ? `scan_verdict.${verdict}` : "scan.flat_note")}
      </p>
      <p>{t("scan.flat_worst", { gap: check.gap?.gap ?? 0, hump: check.hump?.gap ?? 0, share: check.beyond_share })}</p>
      {check.gap && <p>{t("scan.flat_gap_at", { at: check.gap.at })}</p>}
      {check.hump && <p>{t("scan.flat_hump_at", { at: check.hump.at })}</p>}
      {!sure && (verdict === "within" || verdict === "beyond") && <p class="caution">{t("scan.flat_close")}</p>}
      <p class="quiet small">{t("scan.flat_worth", { noise: noise_gap, spacing, judged: check.judged_share })}</p>
    </li>
  );
}

function FNumbers({ numbers: { ff, fl, lines, heights } }: { numbers: NonNullable<ScanFlatness["f_numbers"]> }) {
  return <p data-testid="flat-f-numbers">{fl === null ? t("scan.flat_ff", { ff, lines, heights }) : t("scan.flat_ff_fl", { ff, fl, lines, heights })}</p>;
}

export function FlatReport({ flatness }: { flatness: ScanFlatness }) {
  return (
    <section class="stack tight" data-testid="flat-report">
      <h3>{t("scan.flat", { standard: t(`standard.${flatness.standard}`) })}</h3>
      {flatness.checks.length === 0 && <p class="caution">{t("scan.flat_no_limit")}</p>}
      <ul class="lines">{flatness.checks.map((check) => <Check key={check.length} check={check} />)}</ul>
      {flatness.f_numbers && <FNumbers numbers={flatness.f_numbers} />}
    </section>
  );
}
