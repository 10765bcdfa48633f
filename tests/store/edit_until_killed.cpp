// Edits a record as fast as it can until it is killed, and says on standard output what is safely on disk: "+N" once
// figure N is pinned, "-N" once that has been undone.
// Usage: edit_until_killed RECORD SEED

#include <unistd.h>

#include <cstdlib>
#include <iostream>
#include <vector>

#include "made.h"
#include "store/store.h"

namespace {

// One write(): an acknowledgement is there whole or not at all.
void acknowledge(char sign, std::int64_t id) {
  const std::string line = sign + std::to_string(id) + "\n";
  if (write(STDOUT_FILENO, line.data(), line.size()) < 0) std::exit(3);
}

}  // namespace

int main(int argc, char** argv) {
  using namespace sash;
  if (argc != 3) return 2;
  std::mt19937_64 random(std::strtoull(argv[2], nullptr, 10));
  auto store = store::Store::open(argv[1]);
  if (!store || store->read_only() != nullptr) {
    std::cerr << (store ? store->read_only()->sentence : store.fault().sentence) << "\n";
    return 1;
  }
  std::vector<std::int64_t> done;  // by this run, so that undo takes back what is known
  std::vector<std::int64_t> undone;
  for (;;) {
    const auto dice = random() % 10;
    if (dice == 0 && !done.empty()) {
      if (!store->undo()) return 1;
      acknowledge('-', done.back());
      undone.push_back(done.back());
      done.pop_back();
    } else if (dice == 1 && !undone.empty()) {
      if (!store->redo()) return 1;
      acknowledge('+', undone.back());
      done.push_back(undone.back());
      undone.pop_back();
    } else {
      const auto id = store->next_id<model::Figure>();
      if (!store->commit(store::test::pin_figure(id.number, std::string(random() % 3000, 'x')))) return 1;
      acknowledge('+', id.number);
      done.push_back(id.number);
      undone.clear();
    }
  }
}
