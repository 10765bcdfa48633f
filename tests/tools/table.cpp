#include "tools/table.h"

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "support/text.h"

namespace sash::test {
namespace {

[[noreturn]] void stop(const std::string& why) {
  std::fprintf(stderr, "test data: %s\n", why.c_str());
  std::abort();
}

std::string read_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) stop("cannot read " + path);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

}  // namespace

const std::string& Row::at(const std::string& column) const {
  const auto it = cells.find(column);
  if (it == cells.end()) stop("no column " + column);
  return it->second;
}

double Row::number(const std::string& column) const {
  const auto n = read_number(trim(at(column)));
  if (!n) stop("line " + std::to_string(line) + ": " + column + " is no number: " + at(column));
  return *n;
}

std::map<std::string, std::string> Row::pairs(const std::string& column) const {
  std::map<std::string, std::string> out;
  for (const auto piece : split(at(column), ';')) {
    const auto text = trim(piece);
    const auto equals = text.find('=');
    if (equals == std::string_view::npos) continue;
    out[std::string(trim(text.substr(0, equals)))] = std::string(trim(text.substr(equals + 1)));
  }
  return out;
}

std::vector<Row> read_table(const std::string& path) {
  const std::string text = read_file(std::string(SASH_TESTS_DIR) + "/" + path);
  std::vector<std::string> header;
  std::vector<Row> rows;
  std::vector<std::string> cells(1);
  bool quoted = false;
  std::size_t line = 1;
  std::size_t start = 1;
  const auto end_row = [&] {
    if (cells.size() == 1 && cells[0].empty()) return;
    if (header.empty()) {
      header = cells;
    } else {
      Row row;
      row.line = start;
      for (std::size_t i = 0; i < header.size(); ++i) row.cells[header[i]] = i < cells.size() ? cells[i] : "";
      rows.push_back(std::move(row));
    }
    cells.assign(1, "");
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '\n') ++line;
    if (quoted) {
      if (c != '"') {
        cells.back() += c;
      } else if (i + 1 < text.size() && text[i + 1] == '"') {
        cells.back() += '"';
        ++i;
      } else {
        quoted = false;
      }
    } else if (c == '"') {
      quoted = true;
    } else if (c == ',') {
      cells.emplace_back();
    } else if (c == '\n') {
      end_row();
      start = line;
    } else if (c != '\r') {
      cells.back() += c;
    }
  }
  end_row();
  if (rows.empty()) stop(path + " holds no row");
  return rows;
}

std::string read_source_file(const std::string& path) { return read_file(std::string(SASH_SOURCE_DIR) + "/" + path); }

}  // namespace sash::test
