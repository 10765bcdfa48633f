#include "script/script.h"

#include <algorithm>

#include "embedded/script_style.h"
#include "script/captions.h"
#include "script/chapters.h"
#include "script/figures_csv.h"
#include "script/film_time.h"
#include "script/inner/html.h"
#include "script/inner/rows.h"
#include "script/inner/sections.h"
#include "script/inner/sheet.h"

namespace sash::script {

std::vector<model::Place> stills_wanted(const model::Record& record, std::size_t most) {
  const FilmTime film(record);
  const auto rows = inner::make_rows(record, film);
  std::vector<model::Place> all;
  for (const auto& row : rows) {
    const auto* footage = model::find(record, row.place.footage);
    if (footage != nullptr && !footage->path.empty()) all.push_back(row.place);
  }
  if (all.size() <= most) return all;
  std::vector<model::Place> out;
  for (std::size_t i = 0; i < most; ++i) out.push_back(all[i * all.size() / most]);
  return out;
}

std::string script_html(const Materials& m) {
  const std::string title = m.record.bench.title.empty() ? "Safety script" : m.record.bench.title;
  std::string out =
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; style-src "
      "'unsafe-inline'\">\n<title>";
  out += inner::escaped(title) + "</title>\n<style>\n";
  out += embedded::script_style;
  out += "</style>\n</head>\n<body>\n<h1>" + inner::escaped(title) +
         "</h1>\n<p class=\"kind\">Annotated safety script</p>\n";
  out += inner::summary_html(m) + inner::attention_html(m);
  out += "<section><h2>Running sheet</h2>\n" + inner::sheet_html(m) + "</section>\n";
  out += inner::hazards_html(m) + inner::workings_html(m) + inner::constants_html(m);
  return out + "</body>\n</html>\n";
}

std::vector<File> write_files(const Materials& m) {
  const auto said = narration_cues(m.record);
  const auto callouts = callout_cues(m.record);
  return {{"script.html", script_html(m)},
          {"narration.vtt", narration::write_webvtt(said)},
          {"narration.srt", narration::write_subrip(said)},
          {"callouts.vtt", narration::write_webvtt(callouts)},
          {"callouts.srt", narration::write_subrip(callouts)},
          {"chapters.txt", chapters_text(m.record)},
          {"figures.csv", figures_csv(m)}};
}

}  // namespace sash::script
