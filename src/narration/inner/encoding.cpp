#include "narration/inner/encoding.h"

#include <fmt/format.h>
#include <unicode/bytestream.h>
#include <unicode/ucnv.h>
#include <unicode/ucsdet.h>
#include <unicode/unistr.h>

#include <algorithm>
#include <array>
#include <memory>
#include <vector>

#include "support/text.h"

namespace sash::narration {

namespace {

struct Signature {
  std::string_view bytes;
  std::size_t at;
  std::string_view what;
};
using namespace std::string_view_literals;
constexpr std::array signatures = {
    Signature{"PK\x03\x04"sv, 0, "a ZIP archive"},
    Signature{"%PDF-"sv, 0, "a PDF document"},
    Signature{"\x89PNG"sv, 0, "a PNG picture"},
    Signature{"\xFF\xD8\xFF"sv, 0, "a JPEG picture"},
    Signature{"ftyp"sv, 4, "an MP4 or MOV file"},
    Signature{"\x1A\x45\xDF\xA3"sv, 0, "a Matroska or WebM file"},
    Signature{"RIFF"sv, 0, "a RIFF file (WAV, AVI)"},
    Signature{"ID3"sv, 0, "an MP3 file"},
    Signature{"OggS"sv, 0, "an Ogg file"},
    Signature{"fLaC"sv, 0, "a FLAC file"},
    Signature{"\x1F\x8B"sv, 0, "a gzip archive"},
    Signature{"7z\xBC\xAF"sv, 0, "a 7-Zip archive"},
    Signature{"\xD0\xCF\x11\xE0"sv, 0, "an Office file"},
    Signature{"SQLite format 3\0"sv, 0, "an SQLite database"},
};

std::string_view known_signature(std::string_view bytes) {
  for (const Signature& s : signatures) {
    if (bytes.size() >= s.at && bytes.substr(s.at).starts_with(s.bytes)) return s.what;
  }
  return {};
}

struct Mark {
  std::string_view bytes;
  const char* encoding;
};
constexpr std::array marks = {
    Mark{"\xEF\xBB\xBF"sv, "UTF-8"}, Mark{"\xFF\xFE\0\0"sv, "UTF-32LE"}, Mark{"\0\0\xFE\xFF"sv, "UTF-32BE"},
    Mark{"\xFF\xFE"sv, "UTF-16LE"},  Mark{"\xFE\xFF"sv, "UTF-16BE"},
};

/// UTF-16 without a mark shows as zero bytes on one side of nearly every pair: Latin text has them.
const char* unmarked_utf16(std::string_view bytes) {
  const std::string_view head = bytes.substr(0, 4096);
  std::array<std::size_t, 2> zeros{};
  for (std::size_t i = 0; i < head.size(); ++i) zeros[i % 2] += head[i] == '\0' ? 1 : 0;
  const std::size_t pairs = head.size() / 2;
  if (pairs < 4) return nullptr;
  if (zeros[1] * 10 > pairs * 8 && zeros[0] * 10 < pairs) return "UTF-16LE";
  if (zeros[0] * 10 > pairs * 8 && zeros[1] * 10 < pairs) return "UTF-16BE";
  return nullptr;
}

/// Whether the bytes are UTF-8 with a few broken places: in any other encoding, bytes that chance to be whole
/// characters of UTF-8 are the exception.
bool mostly_utf8(std::string_view bytes) {
  std::size_t whole = 0;
  std::size_t broken = 0;
  for (std::size_t i = 0; i < bytes.size();) {
    const CodePoint c = code_point_at(bytes, i);
    if (static_cast<unsigned char>(bytes[i]) >= 0x80) ++(c.length > 1 ? whole : broken);
    i += c.length;
  }
  return whole >= 4 * broken;
}

struct ConverterCloser {
  void operator()(UConverter* c) const { ucnv_close(c); }
};
using Converter = std::unique_ptr<UConverter, ConverterCloser>;

/// Nothing for an unknown encoding.
std::optional<std::string> converted(std::string_view bytes, const std::string& encoding) {
  UErrorCode error = U_ZERO_ERROR;
  const Converter converter(ucnv_open(encoding.c_str(), &error));
  if (U_FAILURE(error)) return std::nullopt;
  icu::UnicodeString wide(bytes.data(), static_cast<std::int32_t>(bytes.size()), converter.get(), error);
  if (U_FAILURE(error)) return std::nullopt;
  std::string out;
  wide.toUTF8String(out);
  return out;
}

struct DetectorCloser {
  void operator()(UCharsetDetector* d) const { ucsdet_close(d); }
};

/// The lines that tell something of the encoding: numbers, times and plain ASCII only blur the verdict.
std::string telling_lines(std::string_view bytes) {
  std::string out;
  for (const std::string_view line : split_lines(bytes)) {
    if (std::any_of(line.begin(), line.end(), [](char c) { return (static_cast<unsigned char>(c) & 0x80) != 0; }))
      out.append(line).append("\n");
  }
  return out;
}

/// The likeliest 8-bit or East Asian encoding. Western text is too often taken for its neighbours, so anything but a
/// firm verdict, or one far ahead of the next, is windows-1252.
std::string detected(std::string_view bytes) {
  constexpr std::int32_t firm = 50;  // of 100, ICU's scale
  constexpr std::int32_t fair = 30;
  const std::string head = telling_lines(bytes.substr(0, 65536));
  UErrorCode error = U_ZERO_ERROR;
  const std::unique_ptr<UCharsetDetector, DetectorCloser> detector(ucsdet_open(&error));
  ucsdet_setText(detector.get(), head.data(), static_cast<std::int32_t>(head.size()), &error);
  std::int32_t count = 0;
  const UCharsetMatch** matches = ucsdet_detectAll(detector.get(), &count, &error);
  if (U_FAILURE(error) || count == 0) return "windows-1252";
  const std::int32_t first = ucsdet_getConfidence(matches[0], &error);
  const std::int32_t second = count > 1 ? ucsdet_getConfidence(matches[1], &error) : 0;
  const std::string name = ucsdet_getName(matches[0], &error);
  const bool sure = first >= firm || (first >= fair && first >= 2 * second);
  const bool western = name == "ISO-8859-1" || name == "UTF-8";
  return U_FAILURE(error) || !sure || western ? "windows-1252" : name;
}

/// Whether so much of it is control characters that nobody wrote it. A few are damage, and what signs itself as
/// captions is taken at its word.
bool looks_binary(std::string_view utf8) {
  constexpr std::size_t few = 4;
  if (utf8.starts_with("WEBVTT")) return false;
  const std::string_view head = utf8.substr(0, 65536);
  std::size_t odd = 0;
  for (std::size_t i = 0; i < head.size();) {
    const CodePoint c = code_point_at(head, i);
    const bool control = (c.value < 0x20 && (c.value < 0x09 || c.value > 0x0D) && c.value != 0x1B) || c.value == 0x7F ||
                         (c.value >= 0x80 && c.value < 0xA0) || c.value == 0xFFFD;
    odd += control ? 1 : 0;
    i += c.length;
  }
  return odd > few && odd * 50 > head.size();
}

Fault no_text(std::string_view file_name, std::string_view what) {
  return Fault::of(
      Code::malformed,
      fmt::format("{} is {}, not text; a narration is a SubRip, WebVTT or plain text file.", file_name, what),
      std::string(file_name));
}

}  // namespace

std::string unix_lines(std::string text) {
  std::size_t to = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\r') {
      if (i + 1 < text.size() && text[i + 1] == '\n') continue;
      text[to++] = '\n';
    } else {
      text[to++] = text[i];
    }
  }
  text.resize(to);
  return text;
}

std::string utf8_repaired(std::string_view bytes) {
  if (bytes.starts_with(marks[0].bytes)) bytes.remove_prefix(marks[0].bytes.size());
  if (is_utf8(bytes) && bytes.find('\0') == std::string_view::npos) return std::string(bytes);
  std::string out;
  icu::UnicodeString::fromUTF8(icu::StringPiece(bytes.data(), static_cast<std::int32_t>(bytes.size())))
      .findAndReplace(icu::UnicodeString(static_cast<UChar>(0)), icu::UnicodeString(static_cast<UChar>(0xFFFD)))
      .toUTF8String(out);
  return out;
}

std::uint32_t characters(std::string_view utf8) {
  return static_cast<std::uint32_t>(
      std::count_if(utf8.begin(), utf8.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

Outcome<DecodedText> decode_text(std::string_view bytes, std::string_view file_name, std::string_view declared) {
  if (const std::string_view what = known_signature(bytes); !what.empty()) return no_text(file_name, what);
  DecodedText out;
  out.encoding = declared;
  if (out.encoding.empty()) {
    const auto mark =
        std::find_if(marks.begin(), marks.end(), [&](const Mark& m) { return bytes.starts_with(m.bytes); });
    if (mark != marks.end()) {
      out.encoding = mark->encoding;
      bytes.remove_prefix(mark->bytes.size());
    } else if (const char* wide = unmarked_utf16(bytes); wide != nullptr) {
      out.encoding = wide;
    } else if (mostly_utf8(bytes)) {
      out.encoding = "UTF-8";
    } else {
      out.encoding = detected(bytes);
      out.guessed = true;
    }
  }
  if (out.encoding == "UTF-8") {
    out.repaired = !is_utf8(bytes);
    out.utf8 = utf8_repaired(bytes);
  } else {
    auto text = converted(bytes, out.encoding);
    if (!text) {
      return Fault::of(Code::unknown_name,
                       fmt::format("{} cannot be read as \"{}\": no such encoding is known; leave it out to have it "
                                   "detected, or name one such as UTF-8 or windows-1252.",
                                   file_name, out.encoding),
                       out.encoding);
    }
    out.utf8 = utf8_repaired(*text);
  }
  if (looks_binary(out.utf8)) return no_text(file_name, "binary data");
  return out;
}

}  // namespace sash::narration
