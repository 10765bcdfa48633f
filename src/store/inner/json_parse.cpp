#include "store/inner/json_parse.h"

#include <algorithm>
#include <set>
#include <string>
#include <vector>

namespace sash::store {
namespace {

using Json = nlohmann::json;

constexpr std::size_t longest = std::size_t{128} << 20U;
constexpr std::size_t deepest = 32;  // a record needs 6

Fault at_byte(std::string_view text, std::size_t byte, const std::string& trouble) {
  byte = std::min(byte, text.size());
  const auto before = text.substr(0, byte);
  const auto line = 1 + std::count(before.begin(), before.end(), '\n');
  const auto line_start = before.rfind('\n');
  const auto column = 1 + byte - (line_start == std::string_view::npos ? 0 : line_start + 1);
  Fault fault = Fault::of(Code::malformed, "The JSON text " + trouble + " at line " + std::to_string(line) +
                                               ", column " + std::to_string(column) + ".");
  fault.place = byte;
  return fault;
}

// Builds the tree and stops at the first trouble.
class Builder : public Json::json_sax_t {
 public:
  explicit Builder(std::string_view text) : text_(text) {}

  bool null() override { return put(nullptr); }
  bool boolean(bool v) override { return put(v); }
  bool number_integer(number_integer_t v) override { return put(v); }
  bool number_unsigned(number_unsigned_t v) override { return put(v); }
  bool number_float(number_float_t v, const string_t&) override { return put(v); }
  bool string(string_t& v) override { return put(std::move(v)); }
  bool binary(binary_t&) override { return false; }
  bool start_object(std::size_t) override { return open(Json::object()); }
  bool start_array(std::size_t) override { return open(Json::array()); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }
  bool key(string_t& name) override {
    Json& object = *stack_.back();
    const auto [at, fresh] = object.get_ref<Json::object_t&>().emplace(name, nullptr);
    if (!fresh) {
      fault = Fault::of(Code::malformed, "The JSON text gives the name \"" + name + "\" twice in one object.", name);
      return false;
    }
    member_ = &at->second;
    return true;
  }
  bool parse_error(std::size_t byte, const std::string&, const nlohmann::detail::exception& e) override {
    const std::size_t at = byte > 0 ? byte - 1 : 0;
    constexpr int number_overflow = 406;
    if (e.id == number_overflow) {
      fault = at_byte(text_, at, "has a number too large to keep");
    } else {
      fault = at_byte(text_, at, at >= text_.size() ? "breaks off" : "is malformed");
    }
    return false;
  }

  Json root;
  std::optional<Fault> fault;

 private:
  Json* place(Json&& value) {
    if (stack_.empty()) {
      root = std::move(value);
      return &root;
    }
    if (stack_.back()->is_array()) {
      auto& list = stack_.back()->get_ref<Json::array_t&>();
      list.push_back(std::move(value));
      return &list.back();
    }
    *member_ = std::move(value);
    return member_;
  }
  template <class T>
  bool put(T&& value) {
    place(Json(std::forward<T>(value)));
    return true;
  }
  bool open(Json&& value) {
    if (stack_.size() >= deepest) {
      fault = Fault::of(Code::malformed, "The JSON text nests deeper than 32 levels, which no record does.");
      return false;
    }
    stack_.push_back(place(std::move(value)));
    return true;
  }
  bool close() {
    stack_.pop_back();
    return true;
  }

  std::string_view text_;
  std::vector<Json*> stack_;  // what is open; a list grows only while nothing within it is open
  Json* member_ = nullptr;    // where the value of the name just read goes
};

}  // namespace

Outcome<nlohmann::json> parse_json(std::string_view text) {
  if (text.size() > longest) {
    return Fault::of(Code::out_of_range, "The JSON text is longer than 128 MiB, which is more than a record holds.");
  }
  Builder builder(text);
  Json::sax_parse(text.begin(), text.end(), &builder);
  if (builder.fault) return *builder.fault;
  return std::move(builder.root);
}

}  // namespace sash::store
