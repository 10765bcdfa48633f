#pragma once
// Outcome and Fault: how every part says that the outside let us down (a file, a malformed text, a name nobody knows).
// Not for findings or missing figures, which are ordinary values, and not for bugs, which are `promise` (check.h).
// Pure values; safe from any thread.

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "support/check.h"

namespace sash {

/// What sort of fault it is. Tests and exit codes look at this; people read Fault::sentence.
enum class Code {
  malformed,        ///< text or bytes that do not follow their format
  ambiguous,        ///< more than one reading; the candidates are in Fault::others
  unknown_name,     ///< a name, unit or element nobody knows
  wrong_dimension,  ///< a mass where a volume was wanted
  not_finite,       ///< NaN or infinity
  out_of_range,     ///< a number outside what a table or a law covers
  impossible,       ///< no answer exists (an equation that cannot balance)
  not_found,        ///< a file, row or record that is not there
  unreadable,       ///< exists, but the system will not let us read or write it
  unsupported,      ///< well formed, but not a thing this program handles
  damaged,          ///< cut short or corrupt
  newer_version,    ///< written by a newer program
  read_only,        ///< someone else is writing, or writing is not allowed
  cancelled,        ///< the person stopped it
  wrong_use,        ///< a command or option used wrongly
};

/// A fault: one clear sentence for the person (what, where, how to mend), and the parts it was made of.
struct Fault {
  Code code = Code::malformed;
  std::string sentence;              ///< complete, ends with a full stop
  std::string offending;             ///< the text, name or file at fault, verbatim; may be empty
  std::optional<std::size_t> place;  ///< byte offset in `offending`, where that makes sense
  std::vector<std::string> others;   ///< all further offenders or candidates, each a short phrase

  static Fault of(Code code, std::string sentence, std::string offending = {}) {
    return Fault{code, std::move(sentence), std::move(offending), std::nullopt, {}};
  }
};

/// Either a T or a Fault. Must be looked at: discarding one is a warning, and warnings are errors.
template <class T>
class [[nodiscard]] Outcome {
 public:
  Outcome(T value) : state_(std::in_place_index<0>, std::move(value)) {}      // NOLINT(google-explicit-constructor)
  Outcome(Fault fault) : state_(std::in_place_index<1>, std::move(fault)) {}  // NOLINT(google-explicit-constructor)

  bool ok() const noexcept { return state_.index() == 0; }
  explicit operator bool() const noexcept { return ok(); }

  /// Requires: ok().
  T& value() & {
    promise(ok(), "value() of a faulty outcome");
    return std::get<0>(state_);
  }
  const T& value() const& {
    promise(ok(), "value() of a faulty outcome");
    return std::get<0>(state_);
  }
  T&& value() && {
    promise(ok(), "value() of a faulty outcome");
    return std::get<0>(std::move(state_));
  }
  T& operator*() & { return value(); }
  const T& operator*() const& { return value(); }
  T&& operator*() && { return std::move(*this).value(); }
  T* operator->() { return &value(); }
  const T* operator->() const { return &value(); }

  /// The value, or `other` when there is none.
  T value_or(T other) const& { return ok() ? std::get<0>(state_) : std::move(other); }

  /// Requires: !ok().
  const Fault& fault() const& {
    promise(!ok(), "fault() of a good outcome");
    return std::get<1>(state_);
  }

 private:
  std::variant<T, Fault> state_;
};

/// An outcome without a value: done, or a fault.
template <>
class [[nodiscard]] Outcome<void> {
 public:
  Outcome() = default;
  Outcome(Fault fault) : fault_(std::move(fault)) {}  // NOLINT(google-explicit-constructor)

  bool ok() const noexcept { return !fault_.has_value(); }
  explicit operator bool() const noexcept { return ok(); }
  const Fault& fault() const& {
    promise(!ok(), "fault() of a good outcome");
    return *fault_;
  }

 private:
  std::optional<Fault> fault_;
};

using Done = Outcome<void>;

}  // namespace sash
