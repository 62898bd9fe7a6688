import { judgePart, type Part } from './judge-part';

process.once('message', (part) => {
  process.send!(judgePart(part as Part), () => process.disconnect());
});
