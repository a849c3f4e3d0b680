"""The piece: setting out, settling, making parts; the protocol that a joint kind follows."""
