/** The office: joining it, who this phone belongs to there, sending at once, people for a foreman, and leaving. */
import { useEffect, useState } from "preact/hooks";
import { isForeman, leave, saveLine, session, syncNow, type Answer } from "../../state";
import { t } from "../../words";
import { Link } from "../common/Link";
import { refusalText } from "../people/outcomes";
import { Join } from "./Join";
import { useCodeFromAddress } from "./useCodeFromAddress";

/** A code is of no use to a device that has joined: it is only said that one came. */
const leftUnused = () => undefined;

function leftText(answer: Answer): string {
  return answer.outcome === "offline" ? t("office.left_offline") : answer.outcome === "done" ? t("office.left") : refusalText(answer);
}

function Joined({ onLeft }: { onLeft: (text: string) => void }) {
  const { person, role } = session.value;
  const isLate = useCodeFromAddress(leftUnused);
  return (
    <>
      <p data-testid="joined">{t("office.joined", { person: person ?? "" })}</p>
      {role && <p class="quiet small">{t(`role.${role}_more`)}</p>}
      {isLate && <p class="caution" data-testid="joined-already">{t("office.joined_already")}</p>}
      <button type="button" class="button wide" data-testid="send-now" onClick={() => void syncNow()}>{t("office.send", { waiting: saveLine.value.waiting })}</button>
      {isForeman.value && <Link to="/people" class="button wide" testid="to-people">{t("people.title")}</Link>}
      <button type="button" class="button danger wide" data-testid="leave" onClick={() => void leave().then((answer) => onLeft(leftText(answer)))}>{t("office.leave")}</button>
      <p class="quiet small">{t("office.leave_more")}</p>
    </>
  );
}

export function Office() {
  const [leaving, setLeaving] = useState<string | null>(null);
  const { joined, mustJoinAgain } = session.value;
  const isIn = joined && !mustJoinAgain;
  useEffect(() => { if (joined) setLeaving(null); }, [joined]);
  return (
    <section class="stack tight">
      {isIn && <h2>{t("office.title")}</h2>}
      {leaving !== null && <p class="notice" role="status" data-testid="left">{leaving}</p>}
      {isIn ? <Joined onLeft={setLeaving} /> : <Join />}
    </section>
  );
}
