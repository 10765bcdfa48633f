#include <ostream>

#include "cli/commands/commands.h"
#include "cli/commands/open_to_read.h"
#include "session/files.h"
#include "session/importing.h"
#include "store/json_form.h"
#include "store/store.h"

namespace sash::cli {
namespace {

constexpr std::size_t most_json_bytes = 128U << 20U;

}  // namespace

int record_to_json(const std::string& record, const std::string& to, const Console& console) {
  const auto opened = open_to_read(record, console);
  if (!opened) return console.fail(opened.fault());
  const std::string json = store::to_json(opened->record());
  if (to == "-") {
    console.out << json;
    return fine;
  }
  if (const Done done = session::write_whole(to, json); !done) return console.fail(done.fault());
  console.out << to << '\n';
  return fine;
}

int record_from_json(const std::string& record, const std::string& from, const Console& console) {
  const auto text = session::read_file(from, most_json_bytes);
  if (!text) return console.fail(text.fault());
  const auto read = store::from_json(*text);
  if (!read) return console.fail(read.fault());
  const auto made = store::Store::create(record, *read);
  if (!made) return console.fail(made.fault());
  console.out << record << '\n';
  return fine;
}

}  // namespace sash::cli
