import type { Duplex } from 'node:stream';
import { type Connection, type FieldDef, Query, types } from 'pg';

/** A statement that connections keep by its name. It lists its columns, so that one more in the table changes nothing. */
export interface PreparedStatement {
  name: string;
  text: string;
  values: readonly string[];
}

/** What the policies of row-level security go by, see `FirmTransaction.prepare`. */
export interface Reach {
  firmId: string;
  siteIds: string;
}

/** What `BEGIN READ ONLY` and `SET LOCAL` do, which take no parameters and cannot be prepared. */
const ENTER_FIRM = {
  name: 'enter firm',
  text: `SELECT set_config('transaction_read_only', 'on', true),
    set_config('app.firm_id', $1, true), set_config('app.site_ids', $2, true)`,
};

type Parse = (text: string) => unknown;

/** The statements that each connection has, with what reads their columns. */
const taught = new WeakMap<Connection, Map<string, Parse[]>>();

/** What the driver's types leave out of a connection. */
interface Wire {
  stream: Duplex;
  parse(statement: { name: string; text: string }): void;
  describe(what: { type: 'S'; name: string }): void;
  bind(what: { statement: string; values: readonly string[] }): void;
  execute(what: object): void;
  sync(): void;
}

/**
 * A reading transaction of one statement in one message, without BEGIN and COMMIT: what stands before a Sync is a transaction
 * (PostgreSQL's documentation, Message Flow, Extended Query), and the firm is set in it and nowhere else.
 * After one that fails nobody knows which statements its connection has: `SentTogether` gives that up.
 */
export class FirmRead extends Query {
  /** By this the driver tells that it is over. */
  callback: (error: Error | null) => void = () => undefined;
  private readonly found: unknown[][] = [];
  private parses: Parse[] = [];
  private isInFirm = false;

  constructor(
    private readonly statement: PreparedStatement,
    private readonly reach: Reach,
  ) {
    // Without its name: the driver would take what is prepared here for its own.
    super({ text: statement.text, values: [...statement.values] });
  }

  /** Sends it, and gives the rows, each as the values of its columns. */
  answer(client: { query(read: FirmRead): unknown }): Promise<unknown[][]> {
    return new Promise((resolve, reject) => {
      this.callback = (error) => (error === null ? resolve(this.found) : reject(error));
      client.query(this);
    });
  }

  /** The driver sends what it is asked by this. */
  override submit = (connection: Connection): void => {
    const wire = connection as unknown as Wire;
    const { name, text, values } = this.statement;
    wire.stream.cork();
    this.send(connection, ENTER_FIRM, [this.reach.firmId, this.reach.siteIds]);
    this.parses = this.send(connection, { name: `${name}, by itself`, text }, values);
    wire.sync();
    wire.stream.uncork();
  };

  /** Gives what will read the columns: it is filled in before the first row comes, by whoever taught the statement. */
  private send(
    connection: Connection,
    { name, text }: { name: string; text: string },
    values: readonly string[],
  ): Parse[] {
    const wire = connection as unknown as Wire;
    const statements = taught.get(connection) ?? new Map<string, Parse[]>();
    taught.set(connection, statements);
    let parses = statements.get(name);
    if (parses === undefined) {
      parses = [];
      statements.set(name, parses);
      wire.parse({ name, text });
      wire.describe({ type: 'S', name });
    }
    wire.bind({ statement: name, values });
    wire.execute({});
    return parses;
  }

  handleRowDescription({ fields }: { fields: FieldDef[] }): void {
    if (!this.isInFirm) return;
    for (const { dataTypeID } of fields)
      this.parses.push(types.getTypeParser(dataTypeID, 'text') as Parse);
  }

  handleDataRow({ fields }: { fields: (string | null)[] }): void {
    if (!this.isInFirm) return;
    this.found.push(fields.map((text, at) => (text === null ? null : this.parses[at]?.(text))));
  }

  handleCommandComplete(): void {
    this.isInFirm = true;
  }

  handleError(error: Error): void {
    this.callback(error);
  }

  handleReadyForQuery(): void {
    this.callback(null);
  }
}
