// The bytes of a text in which two letters hold 13 or 14 bits; `src/dense.rs` says how.
function undense(text) {
  "use strict";
  function value(at) {
    var letter = text.charCodeAt(at);
    return letter - (letter > 60 ? 34 : 33);
  }
  var out = new Uint8Array(Math.ceil(text.length * 7 / 8) + 1);
  var at = 0;
  var bits = 0;
  var count = 0;
  for (var i = 0; i + 1 < text.length; i += 2) {
    var pair = value(i) + 93 * value(i + 1);
    bits |= pair << count;
    count += (pair & 8191) > 456 ? 13 : 14;
    while (count > 7) {
      out[at] = bits;
      at += 1;
      bits >>>= 8;
      count -= 8;
    }
  }
  if (i < text.length) {
    out[at] = bits | value(i) << count;
    at += 1;
  }
  return out.subarray(0, at);
}

// Unpacks LZMA: a sixth smaller than what browsers unpack by themselves, and every browser can run it.
//
// Method: the LZMA specification of the LZMA SDK (public domain). In: the bytes of an .lzma file, whose header tells
// properties, a dictionary size that does not matter here, and how many bytes come out.
function unpack(input) {
  "use strict";
  var size = input[5] + input[6] * 0x100 + input[7] * 0x10000 + input[8] * 0x1000000;
  var out = new Uint8Array(size);
  var properties = input[0];
  var literalBits = properties % 9;
  var literalMask = (1 << (Math.floor(properties / 9) % 5)) - 1;
  var positionMask = (1 << Math.floor(properties / 45)) - 1;

  // The range decoder: range and code. In an array of whole numbers, since they pass what engines keep as small ones.
  var at = 14;
  var coder = new Uint32Array(2);
  coder[0] = 0xffffffff;
  for (var i = 0; i < 4; i += 1) {
    coder[1] = (coder[1] << 8) | input[at];
    at += 1;
  }

  function chances(count) {
    return new Uint16Array(count).fill(1024);
  }

  function refill() {
    if (coder[0] < 0x1000000) {
      coder[0] <<= 8;
      coder[1] = (coder[1] << 8) | input[at];
      at += 1;
    }
  }

  function bit(table, index) {
    var chance = table[index];
    var bound = (coder[0] >>> 11) * chance;
    var one = coder[1] >= bound ? 1 : 0;
    if (one) {
      coder[0] -= bound;
      coder[1] -= bound;
      table[index] = chance - (chance >>> 5);
    } else {
      coder[0] = bound;
      table[index] = chance + ((2048 - chance) >>> 5);
    }
    refill();
    return one;
  }

  function evenBits(count) {
    var value = 0;
    for (; count > 0; count -= 1) {
      coder[0] >>>= 1;
      var one = coder[1] >= coder[0] ? 1 : 0;
      if (one) {
        coder[1] -= coder[0];
      }
      value = value * 2 + one;
      refill();
    }
    return value;
  }

  function tree(table, from, bits) {
    var symbol = 1;
    for (var i = 0; i < bits; i += 1) {
      symbol = symbol * 2 + bit(table, from + symbol);
    }
    return symbol - (1 << bits);
  }

  function reversedTree(table, from, bits) {
    var symbol = 1;
    var value = 0;
    for (var i = 0; i < bits; i += 1) {
      var one = bit(table, from + symbol);
      symbol = symbol * 2 + one;
      value += one << i;
    }
    return value;
  }

  function lengths() {
    return { choice: chances(2), low: chances(128), middle: chances(128), high: chances(256) };
  }

  function length(tables, position) {
    if (!bit(tables.choice, 0)) {
      return 2 + tree(tables.low, position * 8, 3);
    }
    if (!bit(tables.choice, 1)) {
      return 10 + tree(tables.middle, position * 8, 3);
    }
    return 18 + tree(tables.high, 0, 8);
  }

  var slots = chances(256);
  var special = chances(128);
  var aligned = chances(16);

  function distance(length) {
    var slot = tree(slots, Math.min(length - 2, 3) * 64, 6);
    if (slot < 4) {
      return slot;
    }
    var bits = (slot >> 1) - 1;
    var base = (2 + (slot & 1)) * Math.pow(2, bits);
    if (slot < 14) {
      return base + reversedTree(special, base - slot, bits);
    }
    return base + evenBits(bits - 4) * 16 + reversedTree(aligned, 0, 4);
  }

  var literals = chances(0x300 << (literalBits + (Math.floor(properties / 9) % 5)));
  var isMatch = chances(192);
  var isRecent = chances(12);
  var isNotFirst = chances(12);
  var isNotSecond = chances(12);
  var isNotThird = chances(12);
  var isLong = chances(192);
  var matchLengths = lengths();
  var recentLengths = lengths();
  var recent = [0, 0, 0, 0];
  var state = 0;
  var written = 0;

  function literal() {
    var before = written > 0 ? out[written - 1] : 0;
    var from = 0x300 * (((written & literalMask) << literalBits) + (before >> (8 - literalBits)));
    var symbol = 1;
    if (state >= 7) {
      var match = out[written - recent[0] - 1];
      var expected;
      var got;
      do {
        expected = (match >> 7) & 1;
        match <<= 1;
        got = bit(literals, from + ((1 + expected) << 8) + symbol);
        symbol = symbol * 2 + got;
      } while (got === expected && symbol < 0x100);
    }
    while (symbol < 0x100) {
      symbol = symbol * 2 + bit(literals, from + symbol);
    }
    out[written] = symbol & 0xff;
    written += 1;
    state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
  }

  while (written < size) {
    var position = written & positionMask;
    var count = 1;
    if (!bit(isMatch, state * 16 + position)) {
      literal();
      continue;
    }
    if (!bit(isRecent, state)) {
      count = length(matchLengths, position);
      recent = [distance(count), recent[0], recent[1], recent[2]];
      state = state < 7 ? 7 : 10;
    } else {
      var which = !bit(isNotFirst, state) ? 0 : !bit(isNotSecond, state) ? 1 : 2 + bit(isNotThird, state);
      recent.unshift(recent.splice(which, 1)[0]);
      if (which === 0 && !bit(isLong, state * 16 + position)) {
        state = state < 7 ? 9 : 11;
      } else {
        count = length(recentLengths, position);
        state = state < 7 ? 8 : 11;
      }
    }
    for (; count > 0 && written < size; count -= 1) {
      out[written] = out[written - recent[0] - 1];
      written += 1;
    }
  }
  return out;
}
