# What cpack makes: one Debian package.

set(COILWARD_MAINTAINER "Coilward developers <coilward@example.org>" CACHE STRING
    "Who answers for the package; example.org is reserved for examples (RFC 2606), a publisher gives an own address")

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME coilward)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_CONTACT "${COILWARD_MAINTAINER}")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "diagnose, rewind and keep the history of instrument pickups")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION
"Coilward says from ordinary meter readings whether the coil of a guitar or
other instrument pickup is at fault, what is wrong with it, where, how sure
that is and why, and what to measure next. It reads serial and network
meters, guides an examination at the terminal or on a page in the browser,
plans and confirms rewinds, and keeps every pickup's readings.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS
    OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION electronics)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
include(CPack)
