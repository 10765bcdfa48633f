#include "script/chapters.h"

#include <map>

#include "script/film_time.h"
#include "support/text.h"

namespace sash::script {

std::string chapters_text(const model::Record& record) {
  const FilmTime film(record);
  std::map<Moment, std::string> titles;  // two at one time: the later one stands
  for (const auto& chapter : record.chapters) {
    std::string title = replace_all(replace_all(chapter.title, "\r", ""), "\n", " ");
    titles[film.of(chapter.place)] = title.empty() ? "Untitled" : title;
  }
  if (titles.empty()) return {};
  std::string out;
  if (clock_text(titles.begin()->first) != "0:00") out += "0:00 Beginning\n";
  for (const auto& [at, title] : titles) out += clock_text(at) + " " + title + "\n";
  return out;
}

}  // namespace sash::script
