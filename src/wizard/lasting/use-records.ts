import { useEffect, useState } from 'preact/hooks';
import type { Record } from '../../record/schema.ts';
import { useSession } from '../session.ts';

export interface AllRecords {
  readonly records: readonly Record[];
  /** listed, and not to be had */
  readonly notRead: number;
  readonly server: boolean;
}

/** Every card there is, archived ones too: what is done with is just what teaches. null: they are being read. */
export function useRecords(): AllRecords | null {
  const { keeper } = useSession();
  const [all, setAll] = useState<AllRecords | null>(null);
  useEffect(() => {
    let wanted = true;
    const read = async () => {
      const { cards, server } = await keeper.list();
      const records: Record[] = [];
      for (const { id } of cards) {
        const record = await keeper.peek(id);
        if (!wanted) return;
        if (record !== null) records.push(record);
      }
      setAll({ records, notRead: cards.length - records.length, server });
    };
    void read();
    return () => {
      wanted = false;
    };
  }, [keeper]);
  return all;
}
