// The notices of packages whose code stands in files of dist.
import { readdirSync, readFileSync } from 'node:fs';

const warranty = `THE SOFTWARE IS PROVIDED "AS IS", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR IMPLIED, INCLUDING BUT NOT LIMITED TO THE
WARRANTIES OF MERCHANTABILITY, FITNESS FOR A PARTICULAR PURPOSE AND NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR
COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM, DAMAGES OR OTHER LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR
OTHERWISE, ARISING FROM, OUT OF OR IN CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER DEALINGS IN THE SOFTWARE.`;

/** For packages that name their licence and bring no text of it: the texts of the SPDX list. */
const texts = {
  MIT: `Permission is hereby granted, free of charge, to any person obtaining a copy of this software and associated
documentation files (the "Software"), to deal in the Software without restriction, including without limitation the
rights to use, copy, modify, merge, publish, distribute, sublicense, and/or sell copies of the Software, and to permit
persons to whom the Software is furnished to do so, subject to the following conditions:

The above copyright notice and this permission notice shall be included in all copies or substantial portions of the
Software.

${warranty}`,
  ISC: `Permission to use, copy, modify, and/or distribute this software for any purpose with or without fee is hereby granted,
provided that the above copyright notice and this permission notice appear in all copies.

THE SOFTWARE IS PROVIDED "AS IS" AND THE AUTHOR DISCLAIMS ALL WARRANTIES WITH REGARD TO THIS SOFTWARE INCLUDING ALL
IMPLIED WARRANTIES OF MERCHANTABILITY AND FITNESS. IN NO EVENT SHALL THE AUTHOR BE LIABLE FOR ANY SPECIAL, DIRECT,
INDIRECT, OR CONSEQUENTIAL DAMAGES OR ANY DAMAGES WHATSOEVER RESULTING FROM LOSS OF USE, DATA OR PROFITS, WHETHER IN AN
ACTION OF CONTRACT, NEGLIGENCE OR OTHER TORTIOUS ACTION, ARISING OUT OF OR IN CONNECTION WITH THE USE OR PERFORMANCE OF
THIS SOFTWARE.`,
};

/** The notices of the packages that files of `node_modules` belong to, which a build took in. */
export function noticesOf(inputs) {
  const folders = inputs.flatMap(
    (input) => /^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/u.exec(input)?.[0] ?? [],
  );
  const notices = [...new Set(folders)].sort().map(noticeOf);
  return `Packages that are part of these files, with their licences.\n\n${notices.join(`\n${'-'.repeat(80)}\n\n`)}`;
}

function noticeOf(folder) {
  const { name, version, license, author } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
  const file = readdirSync(folder).find((one) => /^(licen[cs]e|copying)/iu.test(one));
  if (file) return `${name} ${version}\n\n${readFileSync(`${folder}/${file}`, 'utf8').trim()}\n`;
  const text = texts[license];
  const holder = typeof author === 'object' ? author?.name : author;
  if (!text || !holder)
    throw new Error(`${name} brings no text of its licence (${license}), and none is known here`);
  return `${name} ${version}\n\nLicence: ${license}\nCopyright (c) ${holder}\n\n${text}\n`;
}
