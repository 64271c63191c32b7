/** A whole phone without its screen: real storage over an in-memory IndexedDB, real office, a line that tests control. */
import "fake-indexeddb/auto";
import { Office } from "../../src/sync";
import { Storage, type Standing } from "../../src/storage";
import type { Edit, Fields, Row } from "../../src/wire";
import { Line, type OfficeDouble } from "./office_double";

export class Phone {
  readonly line: Line;
  storage: Storage;
  office: Office;
  standing: Standing | null = null;
  phases: string[] = [];

  constructor(
    office: OfficeDouble,
    readonly name = `phone-${crypto.randomUUID()}`,
  ) {
    this.line = new Line(office);
    [this.storage, this.office] = this.#open();
  }

  #open(): [Storage, Office] {
    const storage = new Storage(this.name);
    storage.onStanding((standing) => (this.standing = standing));
    const office = new Office(storage, {
      http: this.line.http,
      isOnline: () => true,
      alone: (work) => work(),
    });
    office.onPhase((phase) => this.phases.push(phase));
    return [storage, office];
  }

  /** The app is gone from memory, whatever it was doing, and opened again. */
  restart(): void {
    this.close();
    [this.storage, this.office] = this.#open();
  }

  close(): void {
    this.office.close();
    this.storage.close();
  }

  async join(): Promise<void> {
    await this.office.join("RIGHT-CODE", "Ana", "phone");
    await this.sync();
  }

  async sync(): Promise<void> {
    await this.office.syncNow();
    this.office.close();
  }

  get phase(): string | undefined {
    return this.phases.at(-1);
  }

  save(...edits: Edit[]): Promise<void> {
    return this.storage.write(edits, { undo: [] });
  }

  async rows(): Promise<readonly Row[]> {
    return (await this.storage.load()).rows;
  }

  async row(id: string): Promise<Row | undefined> {
    return (await this.rows()).find((row) => row.id === id);
  }

  /** What is shown, in a form two phones and the office can be compared in. */
  async shown(): Promise<Readonly<Record<string, unknown>>> {
    const rows = await this.rows();
    return Object.fromEntries([...rows].sort((a, b) => (a.id < b.id ? -1 : 1)).map((row) => [row.id, row.fields]));
  }
}

export function job(id: string, fields: string | Fields<"job">): Edit<"job"> {
  return { kind: "job", id, fields: typeof fields === "string" ? { name: fields } : fields };
}
