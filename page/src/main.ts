import { mount } from "svelte";
import App from "./App.svelte";
import { eveningAtStart } from "./bar/ways";
import "./look.css";

eveningAtStart();
const place = document.getElementById("page");
if (place) mount(App, { target: place });
