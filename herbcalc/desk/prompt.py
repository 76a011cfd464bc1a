"""Answers that leave at once.

A slider's answer is three small messages: busy, the picture, idle. By default the system holds a
small message back until the one before has been acknowledged, and browsers' machines acknowledge
late (about 40 ms on Linux): pictures would wait for nothing. Typed keys and slider moves are what
TCP_NODELAY is for.
"""

from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection


class PromptConnection(ZMQChannelsWebsocketConnection):
    """The usual way between page and kernel, with no message held back."""

    def connect(self):
        """Connect, and from now on send small messages at once."""
        self.websocket_handler.set_nodelay(True)
        return super().connect()
