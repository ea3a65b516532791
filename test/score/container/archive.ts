// Writes zip archives for tests, right ones and wrong ones (APPNOTE 6.3, 4.3.7, 4.3.12, 4.3.16).
import { crc32, deflateRawSync } from 'node:zlib';

export interface Member {
  readonly path: string;
  readonly data: Uint8Array;
  readonly stored?: boolean;
  /** What the archive says instead of the truth. */
  readonly claimed?: {
    readonly size?: number;
    readonly crc?: number;
    readonly flags?: number;
    readonly method?: number;
  };
}

export function archive(members: readonly Member[]): Uint8Array {
  const locals: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const { path, data, stored = false, claimed = {} } of members) {
    const name = Buffer.from(path);
    const packed = stored ? Buffer.from(data) : deflateRawSync(data);
    const common = Buffer.alloc(26);
    common.writeUInt16LE(20, 0);
    common.writeUInt16LE(claimed.flags ?? 0, 2);
    common.writeUInt16LE(claimed.method ?? (stored ? 0 : 8), 4);
    common.writeUInt32LE(claimed.crc ?? crc32(data), 10);
    common.writeUInt32LE(packed.length, 14);
    common.writeUInt32LE(claimed.size ?? data.length, 18);
    common.writeUInt16LE(name.length, 22);
    const local = Buffer.concat([Buffer.from('PK\x03\x04', 'latin1'), common, name, packed]);
    const rest = Buffer.alloc(14);
    rest.writeUInt32LE(offset, 10);
    directory.push(Buffer.concat([Buffer.from('PK\x01\x02\x14\x00', 'latin1'), common, rest, name]));
    locals.push(local);
    offset += local.length;
  }
  const central = Buffer.concat(directory);
  const end = Buffer.alloc(22);
  end.write('PK\x05\x06', 0, 'latin1');
  end.writeUInt16LE(members.length, 8);
  end.writeUInt16LE(members.length, 10);
  end.writeUInt32LE(central.length, 12);
  end.writeUInt32LE(offset, 16);
  return new Uint8Array(Buffer.concat([...locals, central, end]));
}

/** The member that names a compressed score's root file. */
export function container(path: string): Member {
  const text = `<container><rootfiles><rootfile full-path="${path}"/></rootfiles></container>`;
  return { path: 'META-INF/container.xml', data: new TextEncoder().encode(text) };
}
