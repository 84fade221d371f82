// Format tags in words, so that a refusal can say what the file holds.

const names = new Map<number, string>([
  [0x0002, 'ADPCM'],
  [0x0006, 'A-law (ITU-T G.711)'],
  [0x0007, 'mu-law (ITU-T G.711)'],
  [0x0011, 'IMA ADPCM'],
  [0x0014, 'G.723 ADPCM'],
  [0x0031, 'GSM 6.10'],
  [0x0040, 'G.721 ADPCM'],
  [0x0042, 'G.723.1'],
  [0x0045, 'G.726 ADPCM'],
  [0x0050, 'MPEG audio'],
  [0x0055, 'MP3 (MPEG layer 3)'],
  [0x0064, 'G.726 ADPCM'],
  [0x0083, 'G.729'],
  [0x0092, 'Dolby Digital (AC-3)'],
  [0x00ff, 'AAC'],
  [0x0160, 'Windows Media Audio'],
  [0x0161, 'Windows Media Audio'],
  [0x0162, 'Windows Media Audio'],
  [0x0163, 'Windows Media Audio'],
  [0x0270, 'ATRAC'],
  [0x1600, 'AAC'],
  [0x1602, 'AAC'],
  [0x1610, 'AAC'],
  [0x2000, 'Dolby Digital (AC-3)'],
  [0x2001, 'DTS'],
  [0x674f, 'Vorbis'],
  [0x6750, 'Vorbis'],
  [0x6751, 'Vorbis'],
  [0x704f, 'Opus'],
  [0xf1ac, 'FLAC'],
]);

/** What format tag `tag` stands for, with its number; source: the registered wave format tags (RFC 2361). */
export function formatName(tag: number): string {
  const hex = `0x${tag.toString(16).padStart(4, '0').toUpperCase()}`;
  const name = names.get(tag);
  return name ? `${name}, format tag ${hex}` : `an unknown format, tag ${hex}`;
}
