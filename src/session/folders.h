#pragma once
// Where the program keeps what is not part of a record, by the XDG Base Directory Specification 0.8. Reads the
// environment once a call; makes nothing.

#include <string>

namespace sash::session {

std::string config_folder();  ///< settings
std::string cache_folder();   ///< what can be made again
std::string state_folder();   ///< recent records
std::string data_folder();    ///< the demo record
std::string
documents_folder();  ///< where a person's own files go: ~/Documents where there is one, else the home folder

}  // namespace sash::session
