import { mount } from "svelte";
import App from "./App.svelte";
import { lights } from "./core/lights.svelte";
import { LIGHTS } from "./lights/register";
import { eveningAtStart } from "./bar/ways";
import "./look.css";

eveningAtStart();
lights.all = LIGHTS;
const place = document.getElementById("page");
if (place) mount(App, { target: place });
