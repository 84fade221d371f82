// Channels, bits and frame size say the same thing twice: where one of them is wrong, the others tell what it should be.

const channelsMax = 64;

/** The fields of a "fmt " chunk that must agree. */
export interface FrameFields {
  channels: number;
  rateHz: number;
  bytesPerSecond: number;
  frameBytes: number;
  bits: number;
}

export interface Frame {
  channels: number;
  containerBytes: number;
  /** False when the fields agreed. */
  repaired: boolean;
}

/**
 * Channels and bytes per sample that the fields agree on, or that most of them tell.
 *
 * A frame must be channels x bytes per sample, and bytes per second must be rate x frame. Of the three ways to mend
 * a contradiction (trust channels and bits, bits and frame, or channels and frame) the first wins whose frame the
 * bytes per second bear out; else the first that is possible at all.
 *
 * @returns absent when nothing possible remains: 1 .. 64 channels, whole numbers of 1 .. 8 bytes, floats of 4 or 8
 */
export function repairedFrame(fields: FrameFields, floatingPoint: boolean): Frame | undefined {
  const { channels, frameBytes } = fields;
  const fromBits = containerOf(fields.bits, floatingPoint);
  const channelsPossible = channels >= 1 && channels <= channelsMax;
  if (channelsPossible && fromBits > 0 && frameBytes === channels * fromBits) {
    return { channels, containerBytes: fromBits, repaired: false };
  }
  // 20 or 24 bits in four bytes: the one wide container that real devices write without the extended header.
  if (channelsPossible && !floatingPoint && fields.bits > 16 && fields.bits < 32 && frameBytes === channels * 4) {
    return { channels, containerBytes: 4, repaired: false };
  }
  const candidates: Frame[] = [];
  if (channelsPossible && fromBits > 0) candidates.push({ channels, containerBytes: fromBits, repaired: true });
  const channelsTold = fromBits > 0 ? frameBytes / fromBits : 0;
  if (Number.isInteger(channelsTold) && channelsTold >= 1 && channelsTold <= channelsMax) {
    candidates.push({ channels: channelsTold, containerBytes: fromBits, repaired: true });
  }
  const bytesTold = channelsPossible ? frameBytes / channels : 0;
  if (containerOf(8 * bytesTold, floatingPoint) === bytesTold && bytesTold > 0) {
    candidates.push({ channels, containerBytes: bytesTold, repaired: true });
  }
  const borneOut = fields.rateHz > 0 ? fields.bytesPerSecond / fields.rateHz : 0;
  return candidates.find((frame) => frame.channels * frame.containerBytes === borneOut) ?? candidates[0];
}

/** Bytes that hold `bits`; 0 where there is no such sample. */
function containerOf(bits: number, floatingPoint: boolean): number {
  if (floatingPoint) return bits === 32 || bits === 64 ? bits / 8 : 0;
  return bits >= 8 && bits <= 64 && Number.isInteger(bits) ? Math.ceil(bits / 8) : 0;
}
