export { strayPath } from '../../map/index.js';
