// Where things are.
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
export const build = process.env.POINTWRIGHT_BUILD ?? path.join(root, 'build/release');
