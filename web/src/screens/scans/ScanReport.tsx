/** What became of a scan's points, and how it was understood. */
import { areaText, depthText, errorText, numberText } from "../../units";
import type { ScanReport as Report } from "../../wire";
import { reader, t } from "../../words";

export function ScanReport({ report, readings }: { report: Report; readings: number }) {
  const [x, y] = report.scan_size;
  const [rx, ry] = report.room_size;
  const count = (value: number) => numberText(value, 0, reader.value.language);
  const facts: readonly (readonly [string, string])[] = [
    [t("scan.noise"), errorText(report.noise, reader.value)],
    [t("scan.spacing"), depthText(report.spacing, reader.value)],
    [t("scan.dropped"), count(report.outside)],
    [t("scan.above"), count(report.above)],
    [t("scan.below"), count(report.below)],
    [t("scan.scattered"), count(report.scattered)],
    [t("scan.empty"), areaText(report.empty_area, reader.value)],
  ];
  return (
    <section class="stack tight" data-testid="scan-report">
      <h3 data-testid="scan-readings">{t("scan.readings", { readings, points: report.points })}</h3>
      <p class={report.unit_doubtful ? "caution" : "notice"}>
        {t("scan.understood", { unit: t(`unit.${report.unit}`), x, y, rx, ry })}{report.unit_doubtful && ` ${t("scan.unit_doubtful")}`}
      </p>
      <dl class="inputs">{facts.map(([name, value]) => <div key={name}><dt>{name}</dt><dd>{value}</dd></div>)}</dl>
    </section>
  );
}
