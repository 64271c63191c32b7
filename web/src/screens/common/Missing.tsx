/** An address that leads nowhere on this phone: deleted, or not here yet. */
import { t } from "../../words";
import { Link } from "./Link";

export function Missing() {
  return (
    <main class="page narrow">
      <h1>{t("missing.title")}</h1>
      <p>{t("missing.more")}</p>
      <Link to="/" class="button main wide" testid="to-jobs">{t("missing.home")}</Link>
    </main>
  );
}
