/** What several rooms of a job need together: added up before it is rounded to packages, and what that saves. */
import { companyPrices, getDraft, jobOf, seesMoney, setDraft } from "../../state";
import { momentText } from "../../units";
import { DEFAULTS, type OrderAnswer, type OrderRow } from "../../wire";
import { reader, t, told } from "../../words";
import { Link } from "../common/Link";
import { amountText, itemName, packagesText, quantityText } from "../common/materials";
import { Missing } from "../common/Missing";
import { moneyText } from "../common/money";
import { NoAnswer } from "../common/Notes";
import { quoteExplained } from "../common/ownExplanations";
import { currency } from "../common/prices";
import { QuoteLines } from "../common/QuoteLines";
import { pathOfRoom } from "../common/route";
import { OrderFigure } from "./OrderFigure";
import { useOrder, useRoomsWithPlans, type OrderedRoom } from "./useOrder";

/** Rooms that somebody left out of the order, by id. */
function leftOut(job: string): readonly string[] {
  return (getDraft(`order:${job}`) ?? "").split(" ").filter((id) => id !== "");
}

function RoomChoice({ job, one }: { job: string; one: OrderedRoom }) {
  const { room, plan, isComing } = one;
  const out = leftOut(job);
  const isIn = !out.includes(room.id);
  if (plan === null) return <li class="line"><span>{room.fields.name}</span><Link to={pathOfRoom(room.id)} class="button" testid="order-room-missing">{t(isComing ? "order.coming" : "order.no_plan")}</Link></li>;
  const turn = () => void setDraft(`order:${job}`, (isIn ? [...out, room.id] : out.filter((id) => id !== room.id)).join(" "));
  return <li><button type="button" class="button wide member" aria-pressed={isIn} data-testid="order-room" onClick={turn}><span>{room.fields.name}</span></button></li>;
}

/** What is saved by rounding once, for all rooms together. */
function savedText({ item, packages, packages_apart: apart }: OrderRow): string | null {
  if (packages === null || apart === null || apart <= packages) return null;
  return t("order.saves", { packages: packagesText(item, apart - packages) });
}

function Rows({ answer, count }: { answer: OrderAnswer; count: number }) {
  return (
    <div class="figures one" data-testid="job-order">
      {answer.materials.map((row) => <OrderFigure key={`${row.item}:${row.package_size}`} row={row} saves={savedText(row)} isForAll={row.rooms.length === count} />)}
    </div>
  );
}

function Costs({ answer: { quote, saves } }: { answer: OrderAnswer }) {
  const margin = companyPrices()?.fields["prices.margin"] ?? DEFAULTS["prices.margin"];
  return (
    <section class="stack tight" data-testid="order-quote">
      <h2>{t("quote.title")}</h2>
      {saves !== null && saves > 0 && <p class="notice" data-testid="order-saves">{t("order.saves_money", { amount: moneyText(saves, currency()) })}</p>}
      <QuoteLines quote={quote} explained={quoteExplained(quote, margin)} />
      <Link to="/prices" class="button wide" testid="to-prices">{t("prices.title")}</Link>
    </section>
  );
}

function Mixed({ answer: { mixed_packages: items } }: { answer: OrderAnswer }) {
  if (items.length === 0) return null;
  return <p class="caution" data-testid="order-mixed">{t("order.mixed", { items: items.map((item) => told("item", item, {}, item)).join(", ") })}</p>;
}

function PaperOrder({ job, rooms, answer }: { job: string; rooms: readonly OrderedRoom[]; answer: OrderAnswer }) {
  const names = rooms.map(({ room }) => room.fields.name).join(", ");
  return (
    <article class="print-only paper" aria-hidden="true">
      <header><h1>{t("order.paper", { job: jobOf(job)?.fields.name ?? "" })}</h1><p>{names} · {momentText(new Date().toISOString(), reader.value)}</p></header>
      <table class="shims"><tbody>{answer.materials.map((row) => <tr key={`${row.item}:${row.package_size}`}><th scope="row">{itemName(row)}</th><td>{amountText(row)}</td><td>{quantityText(row)}</td></tr>)}</tbody></table>
    </article>
  );
}

export function JobOrder({ id }: { id: string }) {
  const job = jobOf(id);
  const all = useRoomsWithPlans(id);
  const rooms = all.filter(({ room, plan }) => plan !== null && !leftOut(id).includes(room.id));
  const asked = useOrder(id, rooms);
  if (!job || job.fields.deleted) return <Missing />;
  const answer = asked?.outcome === "answered" && rooms.length > 0 ? asked.answer : null;
  return (
    <>
      <main class="page" data-testid="order-page">
        <h1>{t("order.job")}</h1>
        <p class="quiet">{t("order.more")}</p>
        <div class="price-columns">
          <section class="stack tight">
            <h2>{t("order.rooms")}</h2>
            <ul class="stack tight">{all.map((one) => <RoomChoice key={one.room.id} job={id} one={one} />)}</ul>
            {rooms.length === 0 && <p class="notice">{t("order.nothing")}</p>}
          </section>
          <div class="stack wide-gaps">
            {asked && asked.outcome !== "answered" && <NoAnswer asked={asked} />}
            {answer && <section class="stack tight"><h2>{t("order.title")}</h2><Rows answer={answer} count={rooms.length} /><Mixed answer={answer} /></section>}
            {answer && seesMoney.value && <Costs answer={answer} />}
          </div>
        </div>
      </main>
      {answer && <PaperOrder job={id} rooms={rooms} answer={answer} />}
    </>
  );
}
