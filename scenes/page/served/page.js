/* Licences of what is bundled: notices.txt */
var zu=i=>{throw TypeError(i)};var o0=(i,t,e)=>t.has(i)||zu("Cannot "+e);var Tt=(i,t,e)=>t.has(i)?zu("Cannot add the same private member more than once"):t instanceof WeakSet?t.add(i):t.set(i,e);var E=(i,t,e)=>(o0(i,t,"access private method"),e);var Zr=class{constructor(t){this.desk=t,this.askedAt=-1/0}now(){clearTimeout(this.later),this.later=0,this.askedAt=performance.now();let{state:t,studies:e}=this.desk;for(let n of Object.values(e))t[n.which]&&n.show(t)}rest(){this.later&&this.now()}soon(){if(this.later)return;let t=this.desk.panes.software?250:120,e=this.askedAt+t-performance.now();e<=0?this.now():this.later=setTimeout(()=>this.now(),e)}};function Jr(i,t){let e=Math.abs(i).toFixed(t),n=Number(e)===0;return i<0&&!n?"−"+e:e}var a0=1e4;function fi(i){let[t,e]=String(Number(Number(i).toFixed(6))).split("."),n=Math.abs(i)<a0?t:t.replace(/(?<=\d)(?=(\d{3})+$)/g," ");return(e===void 0?n:`${n}.${e}`).replace("-","−")}function qe(i,t){return t?t==="°"?i+t:`${i} ${t}`:i}function Gu(i,t=""){let e=l0(i.trim(),t).replace(/[−–]/g,"-").replace(",",".").replace(/(?<=\d)\s(?=\d{3}(\D|$))/g,"");return/^[+-]?(\d+\.?\d*|\.\d+)$/.test(e)?Number(e):NaN}function Kr(i){return i.toFixed(2).replace(/(\.\d)0$/,"$1")}function l0(i,t){let n=(t==="°"?["°","deg"]:[t]).find(s=>s&&i.endsWith(s));return n?i.slice(0,-n.length).trim():i}function Vu(i){return i>0&&i<.005?"< 0.01":i.toFixed(2)}function ji(i,t,e){return Math.min(Math.max(i,t),e)}function $l({least:i,most:t,unit:e}){return qe(`${fi(i)} to ${fi(t)}`,e)}function jr(i){return`Accepted: ${$l(i)}${i.optional?", or empty: not set":""}.`}function Li(i,t){return`${i} ${t}${i===1?"":"s"}`}function Qi(i){return i.replace(/(\d) (mm²|mm|µm|N)(?![\p{L}])/gu,"$1 $2")}function Hu({state:i,study:t,welcome:e,settings:n}){let{chosen:s,movement:r,start:o,travel_mm:a,opening_mm:l}=i,c=t.case?.title??i[s].case,h=t.case?.movements.find(m=>m.movement===r&&m.start===o)?.title??r,d=/, from /.test(h)?"":`, from ${o}`,u=Object.entries(i[s].changes),f=u.map(([m,v])=>n.told(m,v));return[i.b?`State ${s.toUpperCase()}: ${c}`:c,`${h}${d}; travel ${a.toFixed(1)} mm; opened ${l.toFixed(1)} mm beyond closure`,u.length?`${Li(u.length,"setting")} changed: ${f.join("; ")}`:"Settings as in the case",`Cuspway ${e.version}. ${e.cautions}`].map(Qi)}var c0="http://www.w3.org/2000/svg";function Wu(i,t,e){for(let[n,s]of Object.entries(t??{}))s==null||s===!1||(n.startsWith("on")?i.addEventListener(n.slice(2),s):n==="text"?i.textContent=s:i.setAttribute(n,s===!0?"":String(s)));for(let n of e.flat(1/0))n!=null&&n!==!1&&i.append(n);return i}function A(i,t,...e){return Wu(document.createElement(i),t,e)}function Pt(i,t,...e){return Wu(document.createElementNS(c0,i),t,e)}function zt(i){let t=document.getElementById(i);if(!t)throw new Error(`the page has no #${i}`);return t}function Jn(...i){return i.join("-").replace(/[^A-Za-z0-9_]+/g,"-").replace(/-+$/,"")}function Rt(i,t){for(let[e,n]of Object.entries(t))i[e]!==n&&(i[e]=n)}function Ie(i,t){for(let[e,n]of Object.entries(t))i.getAttribute(e)!==String(n)&&i.setAttribute(e,n)}function Jt(i,t){Rt(i,{hidden:!t})}function Xu(i){return document.activeElement===i&&"dirty"in i.dataset}var h0=1e6;function ql(i,t){let e=URL.createObjectURL(i);Yl(e,t),setTimeout(()=>URL.revokeObjectURL(e),1e4)}function Yl(i,t){let e=A("a",{href:i,download:t});document.body.append(e),e.click(),e.remove()}function $u(i,t){ql(new Blob([`${JSON.stringify(i,null,1)}
`],{type:"application/json"}),t)}function qu(){return new Promise((i,t)=>{let e=A("input",{type:"file",accept:".json,application/json",id:"open-state-file"});e.hidden=!0,document.body.append(e),e.addEventListener("cancel",()=>e.remove()),e.addEventListener("change",async()=>{let[n]=e.files;e.remove();try{if(n.size>h0)throw new Error("it is too large for a state");i(JSON.parse(await n.text()))}catch(s){t(s instanceof SyntaxError?new Error(u0(n.name)):s)}}),e.click()})}function u0(i){return/\.toml$/i.test(i)?`it is a case file: end the program and start it with “cuspway page ${i}” to open it`:"it is no state saved by this page"}async function Yu(i){try{return await navigator.clipboard.writeText(i),!0}catch{return!1}}var Zl={"closing arc":"the arc on which a lower tooth moves while the jaw only turns about the line through both condyles","Christensen angle":"the angle by which the jaw has turned after moving forward: the condyles go down, so back teeth come farther apart than front teeth","existing guidance":"what guides the jaw when no replacement tooth is there: the natural teeth that are left, and the condyles",settling:"moving the cusps that hold the bite towards the opposing teeth until each rests on them","edge-to-edge":"the place of an excursion where the edges of the guiding teeth stand on one another; beyond it they cross over","near MI":"so short a way from maximal intercuspation that contacts there count as those of MI","nonworking side":"the side from which the jaw moves away","working side":"the side to which the jaw moves","replacement tooth":"an artificial tooth on a denture base, in place of one that is lost",MI:"maximal intercuspation: the teeth closed as fully as they fit",CR:"centric relation: the jaw as the condyles alone place it, whatever the teeth do"},Zu=["closing arc","Christensen angle","existing guidance","settling","edge-to-edge"],d0=new RegExp(`(${Zu.join("|")})`);function Kn(i){return i.split(d0).filter(Boolean).map(t=>Zu.includes(t)?A("dfn",{title:Zl[t],text:t}):t)}var f0=[["Anywhere",[["Space","play or pause the movement (not in a field or on a button)"],["Ctrl+Z, Ctrl+Shift+Z","undo, redo"],["1 to 7","look from: front, right, left, upper occlusal, lower occlusal, into the mouth, behind"],["? ","this help"]]],["On the casts",[["Arrows","turn"],["Shift+arrows","move"],["+ and −","enlarge, make smaller"],["Drag; right drag; wheel","turn; move; enlarge. Two fingers move and enlarge"]]],["In a field or on a chart",[["Up, down","one step more, less"],["Page up, page down","ten steps (chart: five)"],["Enter","take what was typed"],["Escape","put back the value that holds"],["Home, end","chart: start, end of the excursion"]]]];function Ju(i,t,e){return A("section",{},A("h3",{text:i}),A("dl",{class:"facts keys-list"},t.map(([n,s])=>A("div",{},A("dt",{},e(n)),A("dd",{text:s})))))}function Qr(){let i=zt("help-dialog");i.firstChild||(i.append(A("h2",{id:"help-title",tabindex:"-1",autofocus:!0,text:"Keys and words"}),...f0.map(([t,e])=>Ju(t,e,n=>A("kbd",{text:n}))),Ju("Words",Object.entries(Zl),t=>t),A("button",{type:"button",id:"help-close",text:"Close",onclick:()=>i.close()})),i.addEventListener("click",t=>{t.target===i&&i.close()})),i.showModal()}var Jl="#state=";function to(i){let t=new TextEncoder().encode(JSON.stringify(i)),e="";for(let n of t)e+=String.fromCharCode(n);return Jl+btoa(e).replaceAll("+","-").replaceAll("/","_").replace(/=+$/,"")}function Kl(i){if(!i.startsWith(Jl))return null;let t=i.slice(Jl.length);if(t.length>32768)throw new Error("it is too long");try{let e=t.replaceAll("-","+").replaceAll("_","/"),n=Uint8Array.from(atob(e),s=>s.charCodeAt(0));return JSON.parse(new TextDecoder("utf-8",{fatal:!0}).decode(n))}catch{throw new Error("it was cut short or altered on the way")}}var p0=["front","right","left","behind","upper occlusal","lower occlusal","mouth"],m0=["solid","ghosted","away"],g0=["pose","excursion","none"],_0=50,x0=40,Ku=200;function td(){return{upper:"solid",lower:"solid",numbers:!0,around:!0,look:"front",linked:{}}}function ed(i){return{a:{case:i.case,changes:{...i.changes}},b:null,chosen:"a",movement:i.movement,start:i.start,travel_mm:i.travel_mm,opening_mm:i.opening_mm,map:i.map,display:td()}}function no(i,t){let{movement:e,start:n,travel_mm:s,opening_mm:r,map:o}=i,{case:a,changes:l}=i[t];return{case:a,changes:l,movement:e,start:n,travel_mm:s,opening_mm:r,map:o}}function ts({case:i,changes:t}){let e=Object.entries(t).sort(([n],[s])=>n<s?-1:1);return JSON.stringify([i,e])}function nd(i,t,e){let n={...i.changes,...t},s=Object.entries(n).filter(([r,o])=>o!==(e[r]??null));return{...i,changes:Object.fromEntries(s)}}function id(i,t,e,n){let s=new Set([...Object.keys(e),...Object.keys(n)]),r=(o,a,l)=>l in o.changes?o.changes[l]:a[l]??null;return[...s].map(o=>({path:o,one:r(i,e,o),other:r(t,n,o)})).filter(o=>o.one!==o.other)}function Xs(i){let t={...no(i,"a"),display:i.display};return i.b&&Object.assign(t,{other:i.b,chosen:i.chosen}),t}function jl(i){if(!Ws(i))throw new Error("it holds no state of this page");return{a:ju(i),b:i.other===void 0||i.other===null?null:ju(i.other),chosen:i.other&&i.chosen==="b"?"b":"a",movement:sd(i,"movement",60),start:eo(i,"start",["MI","CR"]),travel_mm:Qu(i,"travel_mm",_0),opening_mm:Qu(i,"opening_mm",x0),map:eo(i,"map",g0),display:y0(i.display)}}function Ws(i){return typeof i=="object"&&i!==null&&!Array.isArray(i)}function ju(i){if(!Ws(i))throw new Error("its second state is none");let t=i.changes??{};if(!Ws(t))throw new Error("its changes are no list of settings");let e=Object.entries(t);if(e.length>Ku)throw new Error(`it changes more than ${Ku} settings`);for(let[s,r]of e)if(!(r===null||typeof r=="boolean"||Number.isFinite(r)||typeof r=="string"&&r.length<=80)||s.length>120)throw new Error(`its setting ${s.slice(0,60)} is none`);let n=sd(i,"case",60);if(!/^[a-z0-9_]+$/.test(n))throw new Error("its case has an impossible name");return{case:n,changes:Object.fromEntries(e)}}function sd(i,t,e){let n=i[t];if(typeof n!="string"||n===""||n.length>e)throw new Error(`its ${t} is missing`);return n}function eo(i,t,e){if(!e.includes(i[t]))throw new Error(`its ${t} is none of ${e.join(", ")}`);return i[t]}function Qu(i,t,e){let n=i[t];if(!Number.isFinite(n)||n<0||n>e)throw new Error(`its ${t.replace("_mm","")} is not between 0 and ${e} mm`);return n}function y0(i){let t=td();if(i===void 0)return t;if(!Ws(i))throw new Error("its display is none");for(let e of["upper","lower"])i[e]!==void 0&&(t[e]=eo(i,e,m0));for(let e of["numbers","around"])i[e]!==void 0&&(t[e]=i[e]===!0);if(i.look!==void 0&&(t.look=eo(i,"look",p0)),Ws(i.linked)){let e=Object.entries(i.linked).slice(0,20);t.linked=Object.fromEntries(e.map(([n,s])=>[n.slice(0,40),s===!0]))}return t}function Ql(i,{cases:t,controls:e}){let n=new Map(e.flatMap(({controls:s})=>s.flatMap(r=>Object.values(r.keys).map(o=>[o,r]))));for(let s of[i.a,i.b].filter(Boolean)){if(!t.some(({name:r})=>r===s.case))throw new Error(`there is no case ${s.case} here`);for(let[r,o]of Object.entries(s.changes)){let a=n.get(r);if(!a)throw new Error(`there is no setting ${r}`);let l=io(a,o);if(l)throw new Error(`${a.label}: ${l}`)}}}function io(i,t){if(t===null)return i.optional?"":"a value is needed";if(i.type==="switch")return typeof t=="boolean"?"":"is neither on nor off";if(i.type==="choice")return i.choices.some(o=>o.value===t)?"":`is none of ${i.choices.map(({label:o})=>o).join(", ")}`;let{least:e,most:n}=i,s=$l(i);return Number.isFinite(t)?i.whole&&!Number.isInteger(t)?`a whole number is needed, ${s}`:t>=e&&t<=n?"":`accepted: ${s}`:`a number is needed, ${s}`}var v0="What is shown can still be looked at, but nothing is computed. To go on elsewhere, save the state and open it in the new page; or put the part of this address from # on behind the new address.",so={report:"report",case_file:"case file"},be,rd,tc,od,ad,ld,ec,nc,ro=class{constructor(t){Tt(this,be);this.desk=t,this.under=new Map}calls(){return{"copy-link":()=>E(this,be,od).call(this),"save-state":()=>E(this,be,rd).call(this,()=>$u(Xs(this.desk.state),E(this,be,tc).call(this,"json"))),"open-state":()=>E(this,be,ad).call(this),"case-file":()=>E(this,be,ec).call(this,"case_file"),picture:()=>E(this,be,ld).call(this),report:()=>E(this,be,ec).call(this,"report"),help:()=>Qr()}}tell(t,e="info"){clearTimeout(this.timer),this.desk.notices.tell("done",e,t),e==="info"&&(this.timer=setTimeout(()=>this.desk.notices.tell("done",e,""),6e3))}answered({kind:t,words:e,text:n,asked:s}){t==="fault"?this.desk.notices.tell(s,"fault",`No ${so[s]} was made. ${E(this,be,nc).call(this,n)}`):this.desk.notices.tell(s,"info",`Making the ${so[s]}: ${e}`)}fileCame({name:t,address:e,asked:n}){this.desk.notices.tell(n,"info",""),Yl(e,t),this.tell(`Saved: ${t}`)}tellLinks(t){let e=t.find(({link:r})=>r==="apart"),n=e?.teeth?`${e.words} ${v0}`:e?.words??"",s=this.desk.state?{words:"Save state",call:this.calls()["save-state"]}:null;this.desk.notices.tell("apart","apart",n,{keeps:!0,act:s});for(let r of["a","b"]){let o=t.find(h=>h.which===r),a=t.length>1?`${r.toUpperCase()}: `:"",l=o?.pose?" The last picture stays.":"",c=o?.fault?`${a}${E(this,be,nc).call(this,o.fault.text)}${l}`:"";this.desk.notices.tell(`fault-${r}`,"fault",c,{keeps:!0})}}};be=new WeakSet,rd=function(t){this.desk.state&&t()},tc=function(t){let{state:e}=this.desk;return`${e[e.chosen].case}_${e.movement.replace(/[^a-z0-9]+/gi,"_")}.${t}`},od=async function(){if(!this.desk.state)return;let t=location.origin+location.pathname+location.search+to(Xs(this.desk.state)),e=await Yu(t);this.tell(e?"Link copied. It works on this machine until the program is ended.":`The link: ${t}`)},ad=async function(){if(this.desk.state)try{this.desk.take(await qu()),this.tell("State opened. Undo brings back the one before.")}catch(t){this.tell(`This file cannot be shown: ${t.message}. Nothing was changed.`,"fault")}},ld=async function(){let t=this.desk.state&&this.desk.panes.of(this.desk.state.chosen);if(!t?.view?.stage){this.tell("There is no picture to save.","fault");return}ql(await t.view.picture(Hu(this.desk)),E(this,be,tc).call(this,"png")),this.tell("Picture saved.")},ec=function(t){if(!this.desk.state)return;(this.desk.study?.ask(t,this.desk.state)??null)===null?this.tell(`The ${so[t]} cannot be made while the connection is lost.`,"fault"):this.desk.notices.tell(t,"info",`Making the ${so[t]}`)},nc=function(t){let e=this.desk.settings.inWords(t).split(`
`);return(e.length===2&&e[0].replace("right","left")===e[1]?[e[0].replace("right","right and left")]:e).map(M0).join(`
`)};function M0(i){let t=i.trim();return t.charAt(0).toUpperCase()+t.slice(1)+(/[.!?]$/.test(t)?"":".")}var cd=["serious","attention","note"];function ic(i,t){return cd.map(e=>A("span",{class:`count ${e}`},A("span",{class:"sign","aria-hidden":"true",text:t?.[e]??""}),` ${e==="note"?Li(i?.note??0,"note"):`${i?.[e]??0} ${e}`}`))}var Tn,$s,hd,ud,oo=class{constructor(t,e){Tt(this,Tn);this.pick=e,this.counts=A("span",{class:"counts",id:`${t}-counts`}),this.list=A("ul",{class:"findings",id:t}),this.more=A("button",{type:"button",class:"small",id:`${t}-more`,hidden:!0,onclick:()=>{this.all=!this.all,E(this,Tn,$s).call(this)}}),this.element=A("div",{},this.list,this.more),this.picked=null}show(t,e,n){if(t===this.header&&n===this.open)return;Object.assign(this,{header:t,signs:e,open:n}),t?.findings.some(({id:r})=>r===this.picked)||(this.picked=null),this.counts.replaceChildren(...t?ic(t.counts,e):[],n?A("span",{class:"quiet",text:n}):""),E(this,Tn,$s).call(this)}forget(){this.picked!==null&&(this.picked=null,E(this,Tn,$s).call(this))}};Tn=new WeakSet,$s=function(){let t=this.header?.findings??[],e=cd.flatMap(a=>t.filter(l=>l.severity===a)),n=this.all?e:e.filter(a=>a.severity!=="note"||a.id===this.picked),s=e.length-e.filter(({severity:a})=>a!=="note").length;this.more.hidden=s===0,this.more.textContent=this.all?"Hide notes":`Show ${Li(s,"note")}`,this.more.setAttribute("aria-expanded",String(!!this.all));let r=e.length===0&&this.header&&!this.open?[A("li",{class:"quiet",text:"Nothing found. That says nothing about what was not looked at."})]:[],o=this.open?[A("li",{class:"quiet",text:`${this.open.charAt(0).toUpperCase()}${this.open.slice(1)}.`})]:[];this.list.replaceChildren(...r,...n.map(a=>E(this,Tn,hd).call(this,a)),...o)},hd=function(t){let e=t.id===this.picked,n=t.text.startsWith(t.lead)?t.text.slice(t.lead.length).trim():t.text,s=t.text!==t.lead,r=A("button",{type:"button",class:"finding","aria-expanded":String(e),"aria-pressed":String(e),onclick:()=>E(this,Tn,ud).call(this,t)},A("span",{class:`sign ${t.severity}`,"aria-hidden":"true",text:t.sign}),A("span",{class:"finding-words"},A("span",{class:"severity",text:`${t.severity}: `}),t.lead,t.replacement?A("span",{class:"flag",text:" ◆ replacement tooth"}):null,t.determined===!1?A("span",{class:"quiet",text:" not determined by these records"}):null)),o=e?A("div",{class:"finding-more"},s?A("p",{},Kn(n||t.text)):null,t.movement?null:A("p",{class:"quiet",text:"It belongs to no single excursion."}),A("dl",{class:"facts"},t.details.map(([a,l])=>A("div",{},A("dt",{},Kn(a)),A("dd",{text:Qi(l)}))))):null;return A("li",{class:e?"picked":""},r,o)},ud=function(t){this.picked=this.picked===t.id?null:t.id,E(this,Tn,$s).call(this),this.list.querySelector(".picked button")?.focus(),this.pick(this.picked?t:null)};var S0={teeth:"teeth",table:"the guide table",pin:"the pin",nothing:"nothing"},dd=["Upper","Lower","Side","Gap, µm","Area, mm²"],fd={travel:"at a travel of",held:"jaw held by",first:"first contact",next:"next to touch",opening:"opening at closure",opened:"opened beyond it, lower incisal point"},b0="Gap: shortest distance between both surfaces as they stand.",w0="Closing: how far the jaw would still close, along the closing arc, until the next pair touches.",Ye,sc,pd,md,gd,_d,xd,ao=class{constructor(){Tt(this,Ye);this.facts=Object.fromEntries(Object.entries(fd).map(([t,e])=>{let n=A("dd",{});return[t,{words:n,line:A("div",{},A("dt",{text:e}),n)}]})),this.list=A("dl",{class:"facts"}),this.rows=[],this.kept=null,this.body=A("tbody",{}),this.table=A("table",{class:"contacts"},A("caption",{class:"spoken",text:"Contacts of this pose"}),A("thead",{},A("tr",{},dd.map(t=>A("th",{scope:"col",text:t})))),this.body),this.none=A("p",{class:"quiet",id:"no-contact"}),this.kinds=A("p",{class:"quiet",id:"kinds-of-distance"}),this.element=A("div",{class:"pose-now"},A("div",{id:"pose-now"},this.list),A("div",{id:"contacts"},this.none,this.table,this.kinds))}moving(t){t!==(this.kept!==null)&&(this.kept=t?0:null,this.element.style.minHeight="",E(this,Ye,sc).call(this))}show(t){!t||t===this.pose||(this.pose=t,E(this,Ye,pd).call(this,A0(t)),E(this,Ye,md).call(this,t),E(this,Ye,sc).call(this))}};Ye=new WeakSet,sc=function(){if(this.kept===null)return;let t=this.element.offsetHeight;t<=this.kept||(this.kept=t,this.element.style.minHeight=`${t}px`)},pd=function(t){let e=Object.keys(fd).filter(s=>t[s]);for(let s of e)Rt(this.facts[s].words,{textContent:t[s]});let n=e.join();n!==this.told&&(this.told=n,this.list.replaceChildren(...e.map(s=>this.facts[s].line)))},md=function(t){let{contacts:e,next:n}=t,s=e.length>0;Jt(this.table,s),Jt(this.none,!s),Rt(this.none,{textContent:s?"":E0(t)}),e.forEach((r,o)=>E(this,Ye,gd).call(this,o,r,T0(r,t)));for(let r of this.rows.splice(e.length))r.line.remove();E(this,Ye,xd).call(this,[s?b0:"",n?w0:""].filter(Boolean).join(" "))},gd=function(t,e,n){var o;(o=this.rows)[t]??(o[t]=E(this,Ye,_d).call(this));let{line:s,cells:r}=this.rows[t];Rt(s,{className:n?"is-first":""}),R0(e).forEach((a,l)=>Rt(r[l],{textContent:a}))},_d=function(){let t=dd.map(()=>A("td",{})),e=A("tr",{},t);return this.body.append(e),{line:e,cells:t}},xd=function(t){Jt(this.kinds,t!==""),t!==this.explained&&(this.explained=t,this.kinds.replaceChildren(...Kn(t)))};function A0(i){let{first:t,next:e}=i;return{travel:qe(Kr(i.travel_mm),"mm"),held:i.opened_mm>0?"nothing: opened":S0[i.guide]??i.guide,first:t&&`${t.upper} on ${t.lower}`,next:e&&`${e.upper} on ${e.lower}, after ${rc(e.gap_mm)} of closing`,opening:qe(Jr(i.opening_deg,2),"°"),opened:i.opened_mm>0?qe(i.opened_mm.toFixed(1),"mm"):null}}function E0(i){return i.opened_mm>0?"No contact: the jaw is opened beyond closure.":i.guide==="table"?"No tooth touches: the guide table holds the jaw.":"No tooth touches in this pose."}function T0({upper:i,lower:t},{first:e}){return i===e?.upper&&t===e?.lower}function R0({upper:i,lower:t,side:e,gap_mm:n,area_mm2:s}){return[String(i),String(t),e||"–",String(Math.round(n*1e3)),Vu(s)]}function rc(i){let t=Math.round(i*1e3);return Math.abs(t)<100?qe(String(t),"µm"):qe(i.toFixed(2),"mm")}var C0={undo:"M7 4 3 8l4 4M3.5 8H11a4.5 4.5 0 0 1 0 9H8",redo:"M13 4l4 4-4 4M16.5 8H9a4.5 4.5 0 0 0 0 9h3",reset:"M4.5 7A6.5 6.5 0 1 1 3.5 11M4.5 2.5V7H9",link:"M8.5 11.5a3.5 3.5 0 0 0 5 0l2.5-2.5a3.54 3.54 0 0 0-5-5L10 5M11.5 8.5a3.5 3.5 0 0 0-5 0L4 11a3.54 3.54 0 0 0 5 5l1-1",save:"M10 3v9M6 8.5l4 4 4-4M3.5 13v3.5h13V13",open:"M10 12.5v-9M6 7l4-4 4 4M3.5 13v3.5h13V13",casefile:"M5 2.5h7l3.5 3.5v11.5H5zM12 2.5V6h3.5M7.5 10h5.5M7.5 13h5.5",picture:"M3 4h14v12H3zM3 13.5l4-4 3.5 3.5 2.5-2 4 3.5M12.5 7.5h.1",report:"M4 2.5h12v15H4zM7 6.5h6M7 9.5h6M7 14v-1.5M10 14v-2.5M13 14v-1",compare:"M3 4h6v12H3zM11 4h6v12h-6z",help:"M7.5 7.5a2.5 2.5 0 1 1 3.5 2.3c-.7.3-1 .9-1 1.7v.5M10 14.5v.2",play:"M6 4l10 6-10 6z",pause:"M6.5 4v12M13.5 4v12",close:"M5 5l10 10M15 5L5 15",both:"M3 10h14M6.5 6.5 3 10l3.5 3.5M13.5 6.5 17 10l-3.5 3.5"};function pn(i){return Pt("svg",{viewBox:"0 0 20 20",width:18,height:18,class:`icon icon-${i}`,"aria-hidden":"true",focusable:"false"},Pt("path",{d:C0[i]}))}var I0={ArrowUp:1,ArrowDown:-1,PageUp:10,PageDown:-10},qs=class{constructor(t,e){this.input=t,this.element=A("p",{class:"wrong",id:e}),Jt(this.element,!1)}say(t,e=!0){Rt(this.element,{textContent:t}),Jt(this.element,t!==""),Ie(this.input,{"aria-invalid":t!==""&&e}),t&&document.activeElement===this.input&&this.element.scrollIntoView({block:"nearest"})}get words(){return this.element.textContent}},Ze,lo,vd,Md,oc,Sd,es=class{constructor({id:t,name:e,note:n,accepts:s,text:r,calls:o}){Tt(this,Ze);Object.assign(this,{accepts:s,text:r,calls:o,value:null,faulty:!1}),this.range=A("span",{class:"spoken",id:`${t}-range`}),this.input=A("input",{type:"text",inputmode:"decimal",id:t,"aria-label":e,autocomplete:"off",spellcheck:"false","aria-describedby":`${n} ${this.range.id}`,placeholder:s().optional?"not set":null,onchange:()=>E(this,Ze,vd).call(this),onblur:()=>E(this,Ze,Md).call(this),onkeydown:a=>E(this,Ze,Sd).call(this,a),onkeyup:a=>a.key.startsWith("Arrow")&&o.end()}),this.note=new qs(this.input,n),this.tellRange()}tellRange(){let t=jr(this.accepts());Rt(this.range,{textContent:t}),Rt(this.input,{title:t})}quiet(){this.refused=null,this.note.say("")}update(t,e=""){let n=t!==this.value;e&&e!==this.note.words?this.note.say(e):!e&&(this.faulty||n)&&this.quiet(),this.faulty=e!=="",this.value=t,!(!n&&typeof this.refused=="string")&&!Xu(this.input)&&Rt(this.input,{value:this.text(t)})}};Ze=new WeakSet,lo=function(t){return Gu(t,this.accepts().unit)},vd=function(){delete this.input.dataset.dirty;let t=this.input.value.trim(),e=t===""?null:E(this,Ze,lo).call(this,t),n=io(this.accepts(),e);this.refused=n?t:null,this.note.say(n?`${yd(t)} is not taken; ${n}.`:""),!n&&(this.calls.end(),this.calls.take(e))},Md=function(){if(this.refused===null||this.refused===void 0)return;let t=io(this.accepts(),this.refused===""?null:E(this,Ze,lo).call(this,this.refused));E(this,Ze,oc).call(this);let e=this.text(this.value)||"not set";this.note.say(`${yd(this.refused)} was not taken; ${t}. It stays ${e}.`,!1),this.refused=null;let n=({target:s})=>s!==this.input&&!this.faulty&&this.quiet();document.addEventListener("change",n,{once:!0})},oc=function(){delete this.input.dataset.dirty,this.input.value=this.text(this.value)},Sd=function(t){if(t.key==="Escape"){this.refused=null,E(this,Ze,oc).call(this),this.faulty||this.note.say("");return}let e=I0[t.key];if(!e)return;t.preventDefault();let{least:n,most:s,step:r}=this.accepts(),o=E(this,Ze,lo).call(this,this.input.value),a=Number.isNaN(o)?this.value??n:o,l=ji(a+e*r,n,s);this.quiet(),this.input.value=this.text(l),this.calls.step(l)};function yd(i){return i===""?"An empty field":`“${i.slice(0,20)}”`}var Ys=class{constructor(t,e,n,s,r){this.most=1,this.slider=A("input",{type:"range",id:`${t}-slider`,min:0,max:1,step:n,"aria-label":`${e}, slider`,oninput:()=>{this.field.quiet(),s(Number(this.slider.value),t)},onchange:r}),this.field=new es({id:t,name:null,note:`${t}-wrong`,accepts:()=>({type:"number",least:0,most:Number(this.most.toFixed(2)),step:n,unit:"mm"}),text:o=>Kr(o??0),calls:{take:o=>s(o,null),step:o=>s(Number(o.toFixed(3)),t),end:r}}),this.input=this.field.input,this.slide=A("div",{class:"slide"},this.slider),this.element=A("div",{class:`mm mm-${t}`},A("label",{for:t,text:e}),this.slide,A("span",{class:"number"},this.input,A("span",{class:"unit",text:"mm"})),this.field.range,this.field.note.element)}limit(t){this.most=t,Rt(this.slider,{max:String(t)}),this.field.tellRange()}off(t){Rt(this.slider,{disabled:t}),Rt(this.input,{disabled:t})}update(t){Rt(this.slider,{value:String(t)}),Ie(this.slider,{"aria-valuetext":`${t.toFixed(1)} mm`}),this.field.update(t)}};function Ni(i,t,e,n){let s=e.map(([o])=>A("input",{type:"radio",name:i,id:Jn(i,o),value:o,onchange:()=>n(o)}));return{element:A("div",{class:"segmented",role:"radiogroup","aria-label":t,id:i},A("span",{class:"segmented-label",text:t,"aria-hidden":"true"}),A("span",{class:"segments"},e.map(([o,a],l)=>A("label",{for:Jn(i,o)},s[l],A("span",{text:a}))))),update(o,a={}){for(let l of s)Rt(l,{checked:l.value===o,disabled:a[l.value]===!0})}}}var P0=[.5,1,2,4],L0=40,N0=6,bd=8,wd=118,Qn="raised bite",jn,Ad,Ed,ac,co=class{constructor(t){Tt(this,jn);this.calls=t,this.movement=A("select",{id:"movement",onchange:()=>t.movement(this.movement.value)}),this.starts=Ni("start-from","From",[["MI","MI"],["CR","CR"]],t.start),this.startWords=A("span",{class:"quiet start-words",id:"start-words"}),this.starts.element.append(this.startWords),this.starts.element.setAttribute("aria-describedby",this.startWords.id),this.playWords=A("span",{text:"Play"}),this.play=A("button",{type:"button",id:"play",class:"play","aria-pressed":"false",title:"Play the movement (space)",onclick:()=>t.play()},pn("play"),this.playWords),this.speed=A("select",{id:"speed"},P0.map(e=>A("option",{value:e,text:`${e} mm/s`,selected:e===2}))),this.travel=new Ys("travel","Travel",.1,t.travel,t.end),this.opening=new Ys("opening","Opening",.5,t.opening,t.end),this.opening.limit(L0),this.marks=Pt("svg",{class:"marks","aria-hidden":"true"}),this.travel.slide.append(this.marks),E(this,jn,Ad).call(this),new ResizeObserver(()=>E(this,jn,ac).call(this)).observe(this.travel.slide)}get mmPerSecond(){return Number(this.speed.value)}setMovements(t,e){this.movements=t,this.notOffered=e;let n=new Map;for(let{movement:r,start:o,title:a}of t)(!n.has(r)||o==="MI")&&n.set(r,a.replace(/, from .*/,""));let s=[...n].map(([r,o])=>A("option",{value:r,text:o}));this.movement.replaceChildren(...s)}update(t,e,n,s){this.travel.off(s),Rt(this.play,{disabled:s}),Rt(this.movement,{value:t.movement});let r=(this.movements??[]).filter(({movement:h})=>h===t.movement),o=h=>r.some(d=>d.start===h);this.starts.update(t.start,{MI:!o("MI"),CR:!o("CR")}),E(this,jn,Ed).call(this,t.movement,o("MI"),o("CR")),e&&(this.row=e);let a=e??(this.row?.movement===t.movement?this.row:null);this.most=Math.max(a?a.travel_mm.at(-1):N0,t.travel_mm),this.travel.limit(this.most),this.travel.update(t.travel_mm),this.opening.update(t.opening_mm);let l=a?.edge_to_edge_mm??null,c=JSON.stringify([this.most,l,n]);c!==this.drawn&&(this.drawn=c,this.told={edge:l,readings_mm:n},E(this,jn,ac).call(this))}playing(t){t!==this.plays&&(this.plays=t,Ie(this.play,{"aria-pressed":t}),this.playWords.textContent=t?"Pause":"Play",this.play.replaceChildren(pn(t?"pause":"play"),this.playWords))}};jn=new WeakSet,Ad=function(){let t=(e,n)=>A("div",{class:"chosen"},A("label",{for:e.id,text:n}),e);zt("movement-bar").append(A("div",{class:"bar-row"},t(this.movement,"Movement"),this.starts.element,this.play,t(this.speed,"Speed")),A("div",{class:"bar-row sliders"},this.travel.element,this.opening.element))},Ed=function(t,e,n){let s=(this.movements??[]).some(({start:l,movement:c})=>l==="CR"&&c!==Qn),r="";!e&&this.movements?r="CR only":!n&&this.movements&&(r=s?"MI only":"CR = MI");let o=this.notOffered?.[t]??{},a=o.MI??o.CR??"";Rt(this.startWords,{textContent:r,title:a}),Rt(this.starts.element,{title:a})},ac=function(){let t=this.travel.slide.clientWidth;if(!t||!this.told)return;let e=f=>bd+f/this.most*(t-2*bd),{edge:n,readings_mm:s}=this.told;this.marks.setAttribute("viewBox",`0 0 ${t} 20`);let r=(f,m,v)=>Pt("line",{x1:f,x2:f,y1:0,y2:m,class:v}),o=(f,m,v,p="middle")=>Pt("text",{x:f,y:17,class:v,"text-anchor":p},m),a=s.filter(f=>f<=this.most),l=n!==null&&n<=this.most,c=Math.max(e(n??0)+4,e(Math.max(0,...a))+10),h=c+wd<=t,d=f=>!l||h||e(f)+8<t-wd,u=a.flatMap(f=>[r(e(f),5,"reading"),d(f)?o(e(f),String(f),"reading"):""]);l&&u.push(r(e(n),8,"edge"),h?o(c,`edge-to-edge ${n.toFixed(1)} mm`,"edge","start"):o(t,`edge-to-edge ${n.toFixed(1)} mm`,"edge","end")),this.marks.replaceChildren(...u)};function Zs(i,t){let e=Math.min(Math.max(t,0),1)*(i.length-1),n=Math.min(Math.floor(e),i.length-2),s=[1,3,5].map(o=>{let[a,l]=[n,n+1].map(h=>Number.parseInt(i[h].slice(o,o+2),16)),c=a+(e-n)*(l-a);return Math.round(c+.1*(255-c))}),r=t<=.7?1:Math.max(0,(1-t)/(1-.7));return[...s,Math.round(255*r)]}function Td(i){let t=new Uint8Array(1024);for(let e=0;e<256;e+=1)t.set(Zs(i,e/255),4*e);return t}function Rd(i){for(let t of[4,5,3,2])for(let e=0;e<=3;e+=1){let n=i/t;if(Math.abs(n-Number(n.toFixed(e)))<1e-9)return Array.from({length:t+1},(s,r)=>({value:r*n,text:r===0?"0":(r*n).toFixed(e)}))}return[{value:0,text:"0"},{value:i,text:String(i)}]}var D0=[["upper tooth","natural tooth"],["replacement tooth","replacement tooth (its number is framed)"],["gum","gum"],["denture base","denture base"],["stone","stone of the cast"]],U0={MI:"in MI",protrusion:"protrusion","right lateral":"right lateral","left lateral":"left lateral","right between":"between, right","left between":"between, left",retrusion:"retrusion"},Cd={s:"M3 3h8v8H3z","^":"M7 2.5l5 9H2z",o:"M7 2.5a4.5 4.5 0 1 1 0 9 4.5 4.5 0 0 1 0-9z",D:"M7 2l5 5-5 5-5-5z",v:"M2 2.5h10l-5 9z",P:"M5 2h4v3h3v4H9v3H5V9H2V5h3z",x:"M3 3l8 8M11 3l-8 8"};function Id(i){let{roles:t,styles:e,severities:n,gap_scale:s,map_limit_mm:r}=i,o=D0.filter(([c])=>t[c]).map(([c,h])=>pi(O0(t[c]),h)),a=Object.entries(U0).filter(([c])=>e[c]).map(([c,h])=>pi(cc(e[c].shape,e[c].colour,!0),`contact${c==="MI"?"":","} ${h}`)),l=Object.entries(n??{}).map(([c,h])=>pi(A("span",{class:`sign ${c}`,text:h}),c));return A("div",{class:"legend"},lc("Surfaces",o),lc("Contacts",[...a,pi(cc("s",ns,!1),"hollow: on the nonworking side"),pi(cc("s",ns,!1,"2 1.6"),"dotted: behind what is seen"),pi(F0(),"four strokes: first contact, which holds the jaw"),pi(B0(),"ring: the finding that is picked"),pi(k0(),"small dots: contacts of the whole excursion, pale where hidden")]),s?A("div",{},A("h4",{text:"Gap to the opposing arch"}),z0(s,t["upper tooth"]),A("p",{class:"quiet ends"},A("span",{text:"0 mm"}),A("span",{text:`${r??1} mm and more`}))):null,lc("Findings",l))}function lc(i,t){return A("div",{},A("h4",{text:i}),A("ul",{},t))}function pi(i,t){return A("li",{},i,A("span",{text:t}))}function O0(i){return Js(Pt("rect",{x:.5,y:.5,width:13,height:13,rx:2,fill:i,stroke:"#5b626c"}))}var ns="#1c1f24";function Js(...i){return Pt("svg",{viewBox:"0 0 14 14",width:14,height:14,"aria-hidden":"true"},i)}function F0(){return Js(Pt("path",{d:"M7 0v3.5M7 10.5V14M0 7h3.5M10.5 7H14",fill:"none",stroke:ns,"stroke-width":1.8}))}function B0(){return Js(Pt("circle",{cx:7,cy:7,r:5.5,fill:"none",stroke:ns,"stroke-width":2}))}function k0(){return Js(Pt("circle",{cx:4,cy:7,r:1.8,fill:ns}),Pt("circle",{cx:10,cy:7,r:1.8,fill:ns,opacity:.45}))}function cc(i,t,e,n=null){let s=!e||i==="x";return Js(Pt("path",{d:Cd[i]??Cd.o,fill:s?"none":t,stroke:s?t:"#1c1f24","stroke-width":s?1.8:.8,"stroke-dasharray":n}))}function z0(i,t){let n=2.0833333333333335,s=Array.from({length:48},(r,o)=>{let[a,l,c,h]=Zs(i,(o+.5)/48);return Pt("rect",{x:o*n,y:0,width:n+.2,height:8,fill:`rgb(${a} ${l} ${c})`,"fill-opacity":h/255})});return Pt("svg",{class:"gap-bar",viewBox:"0 0 100 8",preserveAspectRatio:"none",role:"img","aria-label":"dark: near; light: far"},Pt("rect",{x:0,y:0,width:100,height:8,fill:t??"#fff"}),s)}function Ks([i,t],[e,n]){let s=t-i;return r=>s===0?(e+n)/2:e+(r-i)/s*(n-e)}function js(i,t,e){let n=t-i;if(!(n>0)||e<2)return[i];let s=n/(e-1),r=10**Math.floor(Math.log10(s)),o=[1,2,5,10].map(l=>l*r).find(l=>l>=s-1e-12),a=[];for(let l=Math.ceil(i/o-1e-9);l*o<=t+o*1e-9;l+=1)a.push(Number((l*o).toPrecision(12)));return a}function Pd(i){let t=i.map(e=>String(Number(e.toPrecision(6))).split(".")[1]??"");return Math.min(Math.max(0,...t.map(e=>e.length)),3)}function Ld(i,{wide:t,tall:e,margin:n,least:s}){let r=f=>{let m=i.map(M=>M[f]),[v,p]=[Math.min(0,...m),Math.max(0,...m)],g=Math.max(s-(p-v),.12*(p-v))/2;return[v-g,p+g]},[o,a]=[r(0),r(1)],l=Math.min((t-2*n)/(o[1]-o[0]),(e-2*n)/(a[1]-a[0])),c=([f,m])=>(f+m)/2,h={x:(t/2-n)/l,y:(e/2-n)/l},d=(f,m)=>[c(f)-m,c(f)+m],u={x:d(o,h.x),y:d(a,h.y)};return{x:Ks(u.x,[n,t-n]),y:Ks(u.y,[e-n,n]),across:u.x,upward:u.y,pxPerMm:l}}function Nd(i){let t=({touch:n})=>Math.max(0,...n.map(([,s])=>s));return i.filter(({touch:n,near:s,first:r})=>n.length+s.length+r.length>0).map(n=>({...n,reach:t(n)})).sort((n,s)=>s.reach-n.reach||n.upper-s.upper||n.lower-s.lower)}var Qs=22,hc=104,tr=12,Di=6,ho=36,G0=3,V0=.1,H0={working:"working",nonworking:"nonworking","":""},le,Dd,Ud,uc,dc,Od,fc,Fd,Bd,kd,zd,is=class{constructor(t,e,n){Tt(this,le);this.travel=e,this.end=n,this.drawing=Pt("svg",{id:t,class:"touch-chart",tabindex:0,role:"slider","aria-label":"Travel along the excursion","aria-orientation":"horizontal","aria-valuemin":0}),this.drawing.addEventListener("keydown",s=>E(this,le,Dd).call(this,s)),this.drawing.addEventListener("keyup",()=>this.end()),this.drawing.addEventListener("pointerdown",s=>E(this,le,Ud).call(this,s)),this.drawing.addEventListener("pointermove",s=>E(this,le,uc).call(this,s)),this.drawing.addEventListener("pointerup",()=>E(this,le,dc).call(this)),this.drawing.addEventListener("pointercancel",()=>E(this,le,dc).call(this)),this.now=A("div",{class:"now moving","aria-hidden":"true"}),this.id=t,this.element=A("div",{class:"chart"},this.drawing,this.now),new ResizeObserver(()=>E(this,le,fc).call(this)).observe(this.element)}show(t,e){t!==this.row&&(this.row=t,this.style=e,E(this,le,fc).call(this))}at_mm(t){this.at=t,this.x&&(this.now.style.transform=`translate(${this.x(ji(t,0,this.most))}px, ${Di}px)`,Ie(this.drawing,{"aria-valuenow":t.toFixed(2),"aria-valuetext":`${t.toFixed(1)} mm${E(this,le,Od).call(this,t)}`}))}};le=new WeakSet,Dd=function(t){let e={ArrowRight:1,ArrowUp:1,ArrowLeft:-1,ArrowDown:-1,PageUp:5,PageDown:-5},s={Home:0,End:this.most}[t.key];t.key in e&&(s=this.at+e[t.key]*V0),s!==void 0&&(t.preventDefault(),this.at=Number(ji(s,0,this.most).toFixed(3)),this.travel(this.at,this.id))},Ud=function(t){t.button===0&&(this.drawing.setPointerCapture(t.pointerId),this.dragging=!0,E(this,le,uc).call(this,t))},uc=function(t){if(!this.dragging)return;let e=this.drawing.getBoundingClientRect(),n=Ks([hc,this.wide-tr],[0,this.most]);this.travel(Number(ji(n(t.clientX-e.left),0,this.most).toFixed(2)),this.id)},dc=function(){this.dragging&&(this.dragging=!1,this.end())},Od=function(t){let e=(this.rows??[]).filter(({touch:n})=>n.some(([s,r])=>t>=s&&t<=r));return e.length===0?"":`: ${e.map(({upper:n,lower:s})=>`${n} on ${s}`).join(", ")}`},fc=function(){let t=this.element.clientWidth;if(Jt(this.now,!!this.row),!this.row||!t){this.drawing.setAttribute("height",0),this.drawing.replaceChildren();return}this.wide=t,this.rows=Nd(this.row.pairs),this.most=this.row.travel_mm.at(-1),this.tall=Di+this.rows.length*Qs+ho,this.x=Ks([0,this.most],[hc,t-tr]),this.now.style.height=`${this.tall-ho+4-Di}px`,this.drawing.setAttribute("viewBox",`0 0 ${t} ${this.tall}`),this.drawing.setAttribute("height",this.tall),this.drawing.setAttribute("aria-valuemax",this.most.toFixed(2));let e=this.style?.colour??"#1c1f24";this.drawing.replaceChildren(E(this,le,Fd).call(this,e),...E(this,le,Bd).call(this),...this.rows.flatMap((n,s)=>E(this,le,kd).call(this,n,s,e)),...E(this,le,zd).call(this)),this.at_mm(this.at??0)},Fd=function(t){return Pt("defs",{},Pt("pattern",{id:`${this.id}-hatch`,width:5,height:5,patternUnits:"userSpaceOnUse",patternTransform:"rotate(45)"},Pt("rect",{width:5,height:5,fill:"#fff"}),Pt("rect",{width:2,height:5,fill:t})))},Bd=function(){let t=this.row.edge_to_edge_mm;if(t===null||t>=this.most)return[];let e=this.x(t),n=this.tall-ho;return[Pt("rect",{class:"beyond",x:e,y:Di,width:this.wide-tr-e,height:n-Di}),Pt("line",{class:"edge",x1:e,x2:e,y1:Di,y2:n})]},kd=function(t,e,n){let s=Di+e*Qs,r=(l,c,h,d)=>l.map(([u,f])=>Pt("rect",{class:h,x:this.x(u),y:s+(Qs-c)/2,height:c,fill:d,width:Math.max(this.x(Math.min(f,this.most))-this.x(u),G0)})),o=`${t.upper} / ${t.lower}`,a=[`${t.upper} on ${t.lower}`,H0[t.side],t.replacement?"replacement tooth":""];return[Pt("g",{},Pt("title",{},a.filter(Boolean).join(", ")),Pt("line",{class:"row-line",x1:0,x2:this.wide,y1:s+Qs,y2:s+Qs}),Pt("text",{class:t.replacement?"pair strong":"pair",x:0,y:s+15},o),t.replacement?Pt("text",{class:"flag",x:50,y:s+15},"◆ repl."):"",r(t.near,8,"near",`url(#${this.id}-hatch)`),r(t.touch,12,"touch",n),r(t.first,3,"first","#000"))]},zd=function(){let t=this.tall-ho,e=js(0,this.most,8).flatMap(n=>[Pt("line",{class:"axis",x1:this.x(n),x2:this.x(n),y1:t,y2:t+4}),Pt("text",{class:"axis",x:this.x(n),y:t+16,"text-anchor":"middle"},String(n))]);return[Pt("line",{class:"axis",x1:hc,x2:this.wide-tr,y1:t,y2:t}),...e,Pt("text",{class:"axis",x:this.wide-tr,y:this.tall-5,"text-anchor":"end"},"travel of the lower incisal point, mm")]};var ss=34,W0=2,pc="#1c1f24",Gd="#7a828d",Vd="2 3",Hd=[{id:"gothic",title:"Gothic arch: lower incisal point, from above",of:"incisal_mm",wide:!0,plane:([i,t])=>[t,i],across:"patient’s right ← mm → left",upward:"forward, mm"},{id:"condyle-right",title:"Right condyle, from the right",of:"condyle_right_mm",condyle:"right",plane:([i,,t])=>[i,t],across:"forward, mm →",upward:"up, mm"},{id:"condyle-left",title:"Left condyle, from the left",of:"condyle_left_mm",condyle:"left",plane:([i,,t])=>[-i,t],across:"← forward, mm",upward:"up, mm",turned:!0},{id:"condyle-right-above",title:"Right condyle, from above",of:"condyle_right_mm",condyle:"right",plane:([i,t])=>[t,i],across:"right ← mm → left",upward:"forward, mm"},{id:"condyle-left-above",title:"Left condyle, from above",of:"condyle_left_mm",condyle:"left",plane:([i,t])=>[t,i],across:"right ← mm → left",upward:"forward, mm"}],we,mc,Wd,gc,_c,Xd,$d,qd,uo=class{constructor(t){Tt(this,we);this.charts=Hd.map(e=>{let n=Pt("svg",{id:`${t}${e.id}`,role:"img","aria-label":e.title}),s=A("div",{class:"now-point moving",hidden:!0,"aria-hidden":"true"}),r=A("figure",{class:e.wide?"wide":""},A("figcaption",{text:e.title}),A("div",{class:"chart"},n,s));return{chart:e,drawing:n,figure:r,now:s}}),this.keys=A("ul",{class:"quiet keys",id:`${t}keys`}),this.element=A("div",{class:"tracks"},this.keys,this.charts.map(({figure:e})=>e)),new ResizeObserver(()=>E(this,we,_c).call(this)).observe(this.element)}show(t,e,n,s){let r=t?`${t.header.number} ${t.header.kind} ${n.movement} ${n.start}`:"";r!==this.key&&(Object.assign(this,{key:r,results:t,styles:e?.styles??{},state:n,axis:s}),E(this,we,_c).call(this))}at(t){this.pose=t;for(let e of this.charts)E(this,we,mc).call(this,e)}};we=new WeakSet,mc=function({chart:t,now:e,scales:n,origin:s}){let r=t.condyle?this.pose?.condyles_mm?.[t.condyle]:this.pose?.incisal_mm;if(Jt(e,!!(n&&r)),!n||!r)return;let[o,a]=t.plane(r.map((l,c)=>l-s[c]));e.style.transform=`translate(${n.x(o)}px, ${n.y(a)}px)`},Wd=function(t){if(t.condyle)return this.axis?.[t.condyle]??[0,t.condyle==="right"?-52:52,0];let e=this.results.header.movements.find(({start:n})=>n==="MI");return e?[...this.results.buffers[e[t.of]].subarray(0,3)]:[0,0,0]},gc=function(t,e){let{header:n,buffers:s}=this.results,r=(l,c)=>{let h=s[l[t.of]]??new Float32Array(0),d=[];for(let m=0;m+2<h.length;m+=3)d.push(t.plane([0,1,2].map(v=>h[m+v]-e[v])));let u=!c&&l.movement===this.state.movement&&l.start===this.state.start,f=this.styles[l.movement]??(/45/.test(l.movement)?this.styles[l.movement.includes("-")?"right between":"left between"]:null);return{points:d,chosen:u,border:c,style:f,title:l.title}},o=(l,c)=>l.map(h=>r(h,c)),a=n.movements.filter(({start:l})=>l===this.state.start);return[...o(n.borders,!0),...o(a,!1)].filter(({points:l})=>l.length>1).sort((l,c)=>Number(l.chosen)-Number(c.chosen))},_c=function(){if(this.results){E(this,we,Xd).call(this);for(let t of this.charts){let e=t.figure.clientWidth;e&&E(this,we,$d).call(this,t,e,t.chart.wide?Math.round(e*.62):Math.round(e*.95))}}},Xd=function(){let t=(o,a,l)=>Pt("svg",{viewBox:"0 0 26 8",width:26,height:8,"aria-hidden":"true"},Pt("line",{x1:1,x2:25,y1:4,y2:4,stroke:o,"stroke-dasharray":a,"stroke-width":l})),e=Pt("svg",{class:"now-ring",viewBox:"0 0 12 12",width:12,height:12,"aria-hidden":"true"},Pt("circle",{cx:6,cy:6,r:4.5})),n=(o,a)=>A("li",{class:"key"},o,a),s=E(this,we,gc).call(this,Hd[0],[0,0,0]),r=s.filter(({border:o})=>!o);this.keys.replaceChildren(...r.map(({style:o,chosen:a,title:l})=>n(t(o?.colour??pc,(o?.dash??[]).join(" "),a?3:1.6),l)),n(t(pc,null,3),"thick: the movement shown"),s.length>r.length?n(t(Gd,Vd,1.2),"border, without teeth"):"",n(e,"this pose"))},$d=function(t,e,n){let{chart:s,drawing:r}=t;t.origin=E(this,we,Wd).call(this,s);let o=E(this,we,gc).call(this,s,t.origin),a=o.flatMap(({points:d})=>d);t.scales=Ld(a,{wide:e,tall:n,margin:ss,least:W0});let{x:l,y:c}=t.scales;r.setAttribute("viewBox",`0 0 ${e} ${n}`);let h=o.map(({points:d,chosen:u,border:f,style:m,title:v})=>Pt("polyline",{points:d.map(([p,g])=>`${l(p).toFixed(1)},${c(g).toFixed(1)}`).join(" "),class:f?"border-track":u?"track chosen":"track",stroke:f?Gd:m?.colour??pc,"stroke-dasharray":f?Vd:(m?.dash??[]).join(" ")},Pt("title",{},f?`${v}, border, without teeth`:v)));r.replaceChildren(...E(this,we,qd).call(this,t,e,n),...h),E(this,we,mc).call(this,t)},qd=function({chart:t,scales:e},n,s){let{x:r,y:o,across:a,upward:l}=e,c=ss,h=s-ss,d=js(a[0],a[1],Math.max(3,Math.floor(n/46))),u=js(l[0],l[1],Math.max(3,Math.floor(s/40))),f=(m,v,p)=>Jr(p?-v:v,Pd(m));return[...d.flatMap(m=>[Pt("line",{class:m===0?"zero":"grid",x1:r(m),x2:r(m),y1:ss,y2:h}),Pt("text",{class:"axis",x:r(m),y:h+14,"text-anchor":"middle"},f(d,m,t.turned))]),...u.flatMap(m=>[Pt("line",{class:m===0?"zero":"grid",x1:c,x2:n-ss,y1:o(m),y2:o(m)}),Pt("text",{class:"axis",x:c-5,y:o(m)+4,"text-anchor":"end"},f(u,m,!1))]),Pt("text",{class:"axis",x:n/2,y:s-4,"text-anchor":"middle"},t.across),Pt("text",{class:"axis",x:2,y:ss-12},t.upward)]};var mn,Yd,Zd,Jd,Kd,jd,fo=class{constructor(t){Tt(this,mn);this.calls=t,this.now=new ao,this.guides=A("ul",{class:"guides",id:"guides"}),this.chart=new is("touch-chart",t.travel,t.end),this.chartTitle=A("span",{text:"Teeth in contact"}),this.chartText=A("p",{class:"quiet",id:"guide-text"}),this.chartKey=X0(),this.findings=new oo("findings",t.pick),this.replacement=A("ul",{class:"replacement",id:"replacement"}),this.tracks=new uo("track-"),this.facts=A("dl",{class:"facts",id:"facts"}),this.slide=A("p",{id:"slide"}),this.legend=A("div",{id:"legend"}),this.sections=[Je("now","In this pose",this.now.element),Je("guides","What guides",this.guides),Je("touch",this.chartTitle,this.chart.element,this.chartKey,this.chartText),Je("findings","Findings",this.findings.element),Je("replacement","Replacement teeth",this.replacement),Je("tracks","Tracks",this.tracks.element),Je("facts","Facts",this.slide,this.facts),Je("legend","Legend",this.legend)],this.head=A("button",{type:"button",class:"results-head",id:"to-findings",title:"Go to the findings",onclick:()=>E(this,mn,Yd).call(this)},this.findings.counts,A("span",{class:"spoken",text:": go to the findings"}),A("span",{"aria-hidden":"true",text:"↓"})),this.element=A("div",{id:"results-of-one",class:"waiting"},this.head,this.sections)}moving(t){this.now.moving(t)}update(t,e,n){this.now.show(t.pose?.header);let{results:s}=t,r=t.excursion(e.movement,e.start),o=n.styles[e.movement];this.chart.show(r,o),this.chartKey.style.setProperty("--movement",o?.colour??"#1c1f24"),this.chart.at_mm(e.travel_mm),Rt(this.chartTitle,{textContent:r?`Teeth in contact, ${$0(r.title)}`:"Teeth in contact"}),E(this,mn,Zd).call(this,r?r.text:q0(t,e));let a=s===null||t.isOfOther(s);this.element.classList.toggle("waiting",a),Jt(this.head,!a),this.element.classList.toggle("old",!a&&!t.fresh),Ie(this.element,{"aria-busy":t.computing});let l=`${t.fresh} ${t.computing}`;s&&(s!==this.results||l!==this.standing||e.movement!==this.movement||e.start!==this.start)&&(E(this,mn,Jd).call(this,s.header,e,s.whole?"":rs(t)),this.findings.show(s.header,n.severities,rs(t)),E(this,mn,Kd).call(this,s),E(this,mn,jd).call(this,s,t)),this.tracks.show(s,n,e,t.teeth?.header.axis),t.pose&&this.tracks.at(t.pose.header),this.legend.firstChild||this.legend.append(Id(n)),Object.assign(this,{results:s,standing:l,movement:e.movement,start:e.start})}};mn=new WeakSet,Yd=function(){let t=zt("section-findings");t.open=!0,t.querySelector("summary").focus({preventScroll:!0}),t.scrollIntoView({block:"start"})},Zd=function(t){t!==this.chartTold&&(this.chartTold=t,this.chartText.replaceChildren(...Kn(t)))},Jd=function(t,e,n){this.guides.replaceChildren(...t.guidance.map(s=>{let r=s.movement===e.movement&&s.start===e.start;return A("li",{},A("button",{type:"button","aria-pressed":String(r),onclick:()=>this.calls.movement(s.movement,s.start)},A("span",{class:"guide-title",text:s.title}),A("span",{class:"guide-words",text:s.words})))}),...n?[A("li",{class:"quiet",text:`others ${n}`})]:[])},Kd=function({header:t,whole:e}){let n=t.replacement,s=[A("li",{class:"quiet",text:"This case has no replacement teeth."})];this.replacement.replaceChildren(...n.length?n.map(r=>Y0(r,e)):s)},jd=function({header:t,whole:e},n){this.slide.replaceChildren(...Kn(t.slide??"")),Jt(this.slide,!!t.slide);let s=t.facts.map(([o,a])=>A("div",{},A("dt",{},Kn(o)),A("dd",{text:Qi(a)}))),r=e?[]:[A("div",{class:"quiet"},A("dt",{text:rs(n)}),A("dd"))];this.facts.replaceChildren(...s,...r)};function Je(i,t,...e){let n=typeof t=="string"?document.createTextNode(t):t;return A("details",{class:"section",id:`section-${i}`,open:!0},A("summary",{},A("h3",{},n)),e)}function X0(){let i=(t,e)=>A("span",{class:"key"},A("span",{class:`swatch ${t}`,"aria-hidden":"true"}),e);return A("p",{class:"quiet keys"},i("touch","touches"),i("near","near"),i("first","holds the jaw"),i("now","this pose"),i("beyond","beyond edge-to-edge"))}function $0(i){return i.charAt(0).toLowerCase()+i.slice(1)}function rs(i){return i.whole?"":i.computing?"still being computed":i.results?.whole?"of the settings before":"not computed"}function q0(i,{movement:t}){return t===Qn?"There is no travel along which teeth could be followed.":i.computing?"Still being computed.":"Not computed."}function Y0({tooth:i,name:t,words:e,touches:n},s=!0){return A("li",{class:n?"touches":""},A("span",{class:"flag","aria-hidden":"true",text:n?"◆":"◇"}),A("span",{},A("strong",{text:`${i} `}),n?"touches":s?"free":"free so far",A("span",{class:"quiet",text:` ${t??""}`}),n?A("ul",{},e.split("; ").map(r=>A("li",{text:r}))):null))}var Qd=8,gn,tf,ef,nf,sf,rf,po=class{constructor(t,e,n,s){Tt(this,gn);this.control=t,this.calls=s,this.id=Jn("set",e),this.gesture=`set ${e}`;let o={number:()=>E(this,gn,tf).call(this,n),choice:()=>E(this,gn,ef).call(this,n),switch:()=>E(this,gn,nf).call(this,n)}[t.type]();this.note??(this.note=new qs(this.input,`${this.id}-note`)),this.element=A("div",{class:`field field-${t.type}`},o,this.note.element)}update(t,e,n){if(this.control.type==="number"){this.typing.update(t,n),E(this,gn,rf).call(this,t,e);return}n!==this.note.words&&this.note.say(n),this.control.type==="switch"?(Rt(this.input,{checked:t===!0}),Rt(this.input.nextSibling,{textContent:t===!0?"on":"off"})):Rt(this.input,{value:t??""})}};gn=new WeakSet,tf=function(t){let{control:e}=this,{least:n,most:s,step:r,unit:o}=e;return this.slider=A("input",{type:"range",id:`${this.id}-slider`,min:n,max:s,step:r,"aria-label":`${t}, slider`,oninput:()=>E(this,gn,sf).call(this),onchange:()=>this.calls.end()}),this.tick=A("span",{class:"tick","aria-hidden":"true"}),this.typing=new es({id:this.id,name:o?`${t}, ${o}`:t,note:`${this.id}-note`,accepts:()=>e,text:a=>a===null?"":fi(a),calls:{take:a=>this.calls.set(a,null),step:a=>this.calls.set(Number(a.toFixed(Math.max(e.decimals,3))),this.gesture),end:()=>this.calls.end()}}),this.input=this.typing.input,this.note=this.typing.note,[A("div",{class:"slide"},this.slider,this.tick),A("span",{class:s>=1e4?"number long":"number"},this.input,A("span",{class:"unit",text:o,"aria-hidden":"true"})),this.typing.range]},ef=function(t){let e=this.control.choices.map(({value:n,label:s})=>A("option",{value:n,text:s}));return this.input=A("select",{id:this.id,"aria-label":t,"aria-describedby":`${this.id}-note`,onchange:()=>this.calls.set(this.input.value,null)},e),this.input},nf=function(t){return this.input=A("input",{type:"checkbox",role:"switch",id:this.id,"aria-label":t,"aria-describedby":`${this.id}-note`,onchange:()=>this.calls.set(this.input.checked,null)}),A("label",{class:"switch"},this.input,A("span",{text:"off"}))},sf=function(){let{least:t,step:e}=this.control,n=Math.round((Number(this.slider.value)-t)/e),s=Number((t+n*e).toFixed(6));this.typing.quiet(),this.calls.set(s,this.gesture)},rf=function(t,e){let{least:n,most:s,unit:r}=this.control;if(Rt(this.slider,{value:String(t??n)}),Ie(this.slider,{"aria-valuetext":t===null?"not set":qe(fi(t),r)}),this.slider.classList.toggle("unset",t===null),Jt(this.tick,e!==null),e!==null){let o=(e-n)/(s-n);this.tick.style.left=`calc(${Qd}px + ${o} * (100% - ${2*Qd}px))`,Rt(this.tick,{title:`as in the case: ${qe(fi(e),r)}`})}};function of(i,t,e){let n=A("p",{class:"help",id:`${i}-help-words`,text:e});Jt(n,!1);let s=A("button",{type:"button",class:"help-button",id:`${i}-help`,"aria-expanded":"false","aria-controls":n.id,"aria-label":`What is “${t}”?`,title:e,text:"?",onclick:()=>{Jt(n,n.hidden),s.setAttribute("aria-expanded",String(!n.hidden))}});return{button:s,text:n}}function af(i,t,e){return A("button",{type:"button",class:"reset-button",id:`${i}-reset`,"aria-label":`Put back: ${t}`,title:"Put back to the case",onclick:e},pn("reset"))}var lf={right:"Right",left:"Left",both:""},Z0=["condyles"],Pe,cf,hf,uf,df,ff,pf,mf,gf,mo=class{constructor(t){Tt(this,Pe);this.calls=t,this.groups=[]}make(t){let e=new Map(t.flatMap(({controls:n})=>n.map(({id:s,label:r})=>[s.split(".").at(-1),r])));this.groups=t.map((n,s)=>E(this,Pe,cf).call(this,n,e,s)),zt("settings-body").replaceChildren(...this.groups.map(({element:n})=>n))}isLinked(t){return t.sided&&t.linkInput.checked}update({settings:t,case:e,linked:n,fault:s}){let{values:r,hidden:o}=e;this.valueOf=h=>h in t.changes?t.changes[h]:r[h]??null,this.usualOf=h=>r[h]??null;let a=new Set(s?.keys??[]),l=0;for(let h of this.groups){let d=E(this,Pe,pf).call(this,h,t,o,n,a,s);Rt(h.changed,{textContent:d?`${d} changed`:""}),l+=d}Rt(zt("settings-note"),{textContent:l?`${Li(l,"setting")} changed`:"as in the case"});let c=this.groups.find(({hasFault:h})=>h);c&&s!==this.lastFault&&(c.element.open=!0),this.lastFault=s}inWords(t){let e=new Map;for(let{rows:n}of this.groups)for(let{control:s}of n)e.set(s.id.split(".").at(-1).replace("_side",""),s.label);return t.replace(/\bguidance\.(right|left)(?=[:.])\.?/g,(n,s)=>`${s} condylar guidance`).replace(/\b[a-z]+(?:_[a-z0-9]+)+\b/g,n=>{let s=e.get(n);return s?`“${s}”`:n.replaceAll("_"," ")})}told(t,e){let n=this.nameOf(t);return`${n?.name??t} ${xc(n?.control,e)}`}nameOf(t){for(let{rows:e}of this.groups)for(let{control:n}of e)for(let[s,r]of Object.entries(n.keys))if(r===t)return{control:n,name:s==="both"?n.label:`${n.label}, ${s}`};return null}};Pe=new WeakSet,cf=function(t,e){let n=t.controls.some(({keys:r})=>"right"in r),s={group:t,sided:n};return s.changed=A("span",{class:"changed-count"}),s.rows=t.controls.map(r=>E(this,Pe,df).call(this,r,s,e)),s.link=n?E(this,Pe,hf).call(this,s):null,s.element=A("details",{id:Jn("group",t.id),class:"group",open:Z0.includes(t.id)},A("summary",{},A("h3",{text:t.title}),s.changed),A("p",{class:"quiet",text:t.words}),s.link,s.rows.map(({element:r})=>r)),s},hf=function(t){let e=Jn("linked",t.group.id);return t.linkInput=A("input",{type:"checkbox",role:"switch",id:e,onchange:()=>E(this,Pe,uf).call(this,t,t.linkInput.checked)}),A("label",{class:"switch linked",for:e},t.linkInput,A("span",{text:"Right and left alike"}))},uf=function(t,e){let n={};if(e)for(let{control:s}of t.rows)s.keys.right&&(n[s.keys.left]=this.valueOf(s.keys.right));this.calls.link(t.group.id,e,n)},df=function(t,e,n){let s=t.help.replace(/`([^`]+)`/g,(d,u)=>{let f=n.get(u.split(".").at(-1));return f?`“${f}”`:u.replaceAll("_"," ")}),r=Jn("set",Object.values(t.keys)[0]),{button:o,text:a}=of(r,t.label,s),l=Object.entries(t.keys).map(([d,u])=>E(this,Pe,ff).call(this,t,e,d,u)),c=t.type==="number"?jr(t):"",h=A("div",{class:"control",role:"group","aria-label":t.label},A("div",{class:"control-head"},A("span",{class:"label",text:t.label}),o),a,l.map(d=>d.element));return c&&a.append(` ${c}`),{control:t,element:h,sides:l}},ff=function(t,e,n,s){let r=lf[n],o=r?`${t.label}, ${r.toLowerCase()}`:t.label,a=()=>n==="right"&&this.isLinked(e)?Object.values(t.keys):[s],l=(f,m)=>this.calls.set(Object.fromEntries(a().map(v=>[v,f])),m),c=new po(t,s,o,{set:l,end:()=>this.calls.end()}),h=af(c.id,o,()=>{this.calls.set(Object.fromEntries(a().map(f=>[f,this.usualOf(f)])),null),c.input.focus()}),d=r?A("span",{class:"side",text:r}):null,u=A("div",{class:`side-row${r?" sided":""}`},d,c.element,h);return{side:n,path:s,field:c,reset:h,element:u,tag:d}},pf=function(t,e,n,s,r,o){let a=t.rows.every(({control:{keys:h}})=>!h.right||this.valueOf(h.right)===this.valueOf(h.left)),l=t.sided&&a&&s[t.group.id]!==!1;t.linkInput&&Rt(t.linkInput,{checked:l});let c=0;t.hasFault=!1;for(let{control:h,element:d,sides:u}of t.rows){let f=u.filter(({side:m})=>!(l&&m==="left")&&E(this,Pe,mf).call(this,h,m));Jt(d,f.length>0&&!n.includes(h.id));for(let m of u){let v=m.path in e.changes,p=r.has(m.path);c+=v?1:0,t.hasFault||(t.hasFault=p),Jt(m.element,f.includes(m)),Rt(m.reset,{disabled:!v}),m.element.classList.toggle("changed",v),m.tag&&Rt(m.tag,{textContent:l?"Both":lf[m.side]}),m.field.update(this.valueOf(m.path),this.usualOf(m.path),p?E(this,Pe,gf).call(this,m,o):"")}}return c},mf=function(t,e){return Object.entries(t.needs??{}).every(([n,s])=>this.valueOf(n.replace("{side}",e))===s)},gf=function({path:t},{text:e}){let n=e.split(`
`),s=t.slice(0,t.lastIndexOf(".")),r=n.filter(a=>a.startsWith(s)),o=this.inWords((r.length?r:n).join(`
`));return o.charAt(0).toUpperCase()+o.slice(1)};function xc(i,t){return t===null?"not set":typeof t=="boolean"?t?"on":"off":typeof t=="number"?qe(fi(t),i?.unit??""):i?.choices.find(e=>e.value===t)?.label??String(t)}var _n,xf,yf,vf,Mf,Sf,_o=class{constructor(t,e){Tt(this,_n);this.named=e,this.chosen=Ni("edited","Settings shown of",[["a","A"],["b","B"]],t.choose),this.settings=A("div",{id:"differences"}),this.pose=A("div",{id:"compare-pose"}),this.guides=A("div",{id:"compare-guides"}),this.charts=["a","b"].map(n=>new is(`touch-chart-${n}`,t.travel,t.end)),this.findings=A("div",{id:"compare-findings"}),this.replacement=A("div",{id:"compare-replacement"}),this.element=A("div",{id:"results-of-two"},A("div",{class:"compare-head"},this.chosen.element),Je("differences","Settings that differ",this.settings),Je("compare-pose","In this pose",this.pose),Je("compare-guides","What guides",this.guides),Je("compare-touch","Teeth in contact",this.charts.map(({element:n},s)=>[A("h4",{text:"AB"[s]}),n])),Je("compare-replacement","Replacement teeth that touch",this.replacement),Je("compare-findings","Findings",this.findings))}update(t,e,n){let{a:s,b:r}=t;this.chosen.update(e.chosen),E(this,_n,xf).call(this,s,r,e),E(this,_n,yf).call(this,s,r),[s,r].forEach((a,l)=>{this.charts[l].show(a.excursion(e.movement,e.start),n.styles[e.movement]),this.charts[l].at_mm(e.travel_mm)}),this.element.classList.toggle("old",[s,r].some(a=>a.results!==null&&!a.fresh)),Ie(this.element,{"aria-busy":s.computing||r.computing});let o=[s,r].map(({results:a,fresh:l})=>`${a?.header.number} ${a?.header.kind} ${l}`).join();o!==this.key&&(this.key=o,E(this,_n,vf).call(this,s,r),E(this,_n,Sf).call(this,s,r,n),E(this,_n,Mf).call(this,s,r))}};_n=new WeakSet,xf=function(t,e,n){if(!t.case||!e.case)return;let s=id(n.a,n.b,t.case.values,e.case.values),r=n.a.case===n.b.case?[]:[["Case",t.case.title,e.case.title]],o=(c,h)=>xc(this.named(c)?.control,h),a=[...r,...s.map(({path:c,one:h,other:d})=>[this.named(c)?.name??c,o(c,h),o(c,d)])],l=JSON.stringify(a);l!==this.settingsKey&&(this.settingsKey=l,this.settings.replaceChildren(a.length?go("Settings that differ","Setting",a):A("p",{class:"quiet",text:"None yet. Choose A or B, and change a setting of it."})))},yf=function(t,e){let[n,s]=[t,e].map(({pose:a})=>a?.header);if(!n||!s||n===this.one&&s===this.other)return;Object.assign(this,{one:n,other:s});let r=a=>{let l=[...new Set(a.contacts.map(({upper:c,lower:h})=>`${c} / ${h}`))];return l.length?l.join(", "):"none"},o=({next:a})=>a?`${a.upper} / ${a.lower}, ${rc(a.gap_mm)}`:"–";this.pose.replaceChildren(go("Contacts of this pose","Teeth",[["in contact",r(n),r(s)],["next, after so much closing",o(n),o(s)]]))},vf=function(t,e){let n=o=>o.results?.header.guidance??[],s=new Map(n(e).map(o=>[o.title,o.words])),r=n(t).map(({title:o,words:a})=>[o,a,s.get(o)??_f(e)]);this.guides.replaceChildren(go("What guides","Movement",r))},Mf=function(t,e){let n=o=>o.results?.header.replacement??[],s=(o,a)=>{let l=n(o).find(c=>c.tooth===a);return l?l.touches?`◆ ${l.words}`:o.results.whole?"◇ free":"◇ free so far":_f(o)},r=[...new Set([...n(t),...n(e)].map(({tooth:o})=>o))];this.replacement.replaceChildren(r.length?go("Replacement teeth","Tooth",r.map(o=>[String(o),s(t,o),s(e,o)])):A("p",{class:"quiet",text:"There are no replacement teeth."}))},Sf=function(t,e,n){let s=[t,e].map(({results:l})=>l?.header),r=s.map(l=>new Map((l?.findings??[]).filter(({severity:c})=>c!=="note").map(c=>[c.lead,c]))),o=l=>[...r[l].values()].filter(({lead:c})=>!r[1-l].has(c)),a=l=>{let c=rs([t,e][l]);return c?A("span",{class:"quiet",text:c}):null};this.findings.replaceChildren(...s.flatMap((l,c)=>[A("p",{class:"counts"},A("strong",{text:`${"AB"[c]} `}),ic(l?.counts,n.severities),a(c)),o(c).length?A("ul",{class:"only"},o(c).map(h=>A("li",{},A("span",{class:`sign ${h.severity}`,"aria-hidden":"true",text:`${h.sign} `}),A("span",{class:"spoken",text:`${h.severity}: `}),`only ${"AB"[c]}: ${h.lead}`))):A("p",{class:"quiet",text:rs([t,e][c])?"":`None that only ${"AB"[c]} has, notes left out.`})]))};function _f(i){return i.results?.whole?"–":i.computing?"not yet":"not computed"}function yc(i){return i.replaceAll(/(latero)(protrusion)/gi,"$1­$2")}function go(i,t,e){return A("table",{class:"two"},A("caption",{class:"spoken",text:i}),A("thead",{},A("tr",{},[t,"A","B"].map(n=>A("th",{scope:"col",text:n})))),A("tbody",{},e.map(([n,s,r])=>A("tr",{class:s===r?"":"differs"},A("th",{scope:"row",text:yc(n)}),A("td",{text:yc(s)}),A("td",{text:yc(r)})))))}var J0=[["undo","Undo","Undo (Ctrl+Z)"],["redo","Redo","Redo (Ctrl+Shift+Z)"],["reset","Reset","Reset: put every setting back to the case"]],K0=[["copy-link","link","Link","Copy a link to what is shown"],["save-state","save","Save","Save what is shown as a file"],["open-state","open","Open","Open a saved state"],["case-file","casefile","Case file","Save the settings as a case file for the command line"],["picture","picture","Picture","Save the picture of the casts (PNG), with a caption"],["report","report","Report","Make the full report; takes several seconds"],["compare","compare","Compare","Compare two states side by side"],["help","help","Help","Help on keys and words"]];function bf(i){for(let[t,e,n]of J0)zt("steps").append(A("button",{id:t,type:"button",title:n,"aria-label":n,onclick:()=>i[t]()},pn(t),A("span",{text:e})));for(let[t,e,n,s]of K0){let r=A("button",{id:t,type:"button",title:s,"aria-label":s,onclick:()=>i[t]()},pn(e),A("span",{text:n}));zt("commands").append(r)}zt("compare").setAttribute("aria-pressed","false"),zt("case-chooser").addEventListener("change",t=>i.case(t.target.value))}function wf(i){zt("cautions").textContent=i.cautions,zt("version").textContent=`Cuspway ${i.version}`;let t=i.cases.map(({name:e,title:n})=>A("option",{value:e,text:n}));zt("case-chooser").replaceChildren(...t),zt("case-chooser").disabled=!1}function Af(i,t,e){Rt(zt("undo"),{disabled:!i.canUndo}),Rt(zt("redo"),{disabled:!i.canRedo});let{case:n,changes:s}=t[t.chosen];Rt(zt("reset"),{disabled:Object.keys(s).length===0}),e&&Rt(zt("case-chooser"),{value:n});let r=t.b!==null,o=r?`Compare: end it, and keep ${t.chosen.toUpperCase()}`:"Compare two states side by side";Ie(zt("compare"),{"aria-pressed":r,"aria-label":o,title:o})}var j0=300,Q0=[0,.5,1,2,3],kn,Ef,Tf,Rf,Cf,xo=class{constructor(t){Tt(this,kn);this.desk=t}soon(){this.frame||(this.frame=requestAnimationFrame(()=>{this.frame=0,E(this,kn,Ef).call(this)}))}travel(){let{state:t,study:e,studies:n,welcome:s}=this.desk,r=e?.excursion(t.movement,t.start)??null,o=e?.case?.readings_mm??Q0;this.desk.movementBar.update(t,r,o,t.movement===Qn),t.b===null?this.desk.results.update(n.a,t,s):n.b&&this.desk.comparison.update(n,t,s)}};kn=new WeakSet,Ef=function(){let{desk:t}=this,{state:e,study:n,studies:s,welcome:r}=t;if(t.commands.tellLinks(Object.values(s)),t.panes.work(s,e),document.documentElement.dataset.state=e_(Object.values(s)),!e||!r)return;let o=document.activeElement!==zt("case-chooser")||n.case?.name===e[e.chosen].case;Af(t.history,e,o),t.lookBar.update(e),t.panes.update(s,e,r),t.movementBar.playing(t.playing.on),n?.case&&E(this,kn,Tf).call(this,n,e),E(this,kn,Rf).call(this,e),this.travel(),E(this,kn,Cf).call(this)},Tf=function(t,e){let{desk:n}=this;if(t.case!==this.named&&(this.named=t.case,n.movementBar.setMovements(t.case.movements,t.case.not_offered)),t.case.name!==e[e.chosen].case)return;n.settings.update({settings:e[e.chosen],case:t.case,linked:e.display.linked,fault:t.fault});let s=e.b?`Settings of ${e.chosen.toUpperCase()}`:"Settings";Rt(zt("settings-title"),{textContent:s})},Rf=function(t){let{desk:e}=this,n=t.b!==null;Jt(e.results.element,!n),Jt(e.comparison.element,n),Rt(zt("results-note"),{textContent:t_(Object.values(e.studies))});let{a:s}=e.studies;s.whole&&(document.documentElement.dataset.rested=String(s.results.header.number))},Cf=function(){clearTimeout(this.linkTimer),this.linkTimer=setTimeout(()=>{let{desk:t}=this;t.playing.on||(t.fragment=to(Xs(t.state)),location.hash!==t.fragment&&history.replaceState(null,"",t.fragment))},j0)};function t_(i){let t=i.filter(({whole:e})=>!e);return t.length===0?"up to date":t.some(({fault:e})=>e)?"of the last good state":t.some(({link:e})=>e==="apart")?"not computed: no connection":"still being computed"}function e_(i){let t=e=>i.some(e);return t(({link:e})=>e==="apart")?"apart":t(({pose:e,fault:n})=>!e&&!n)?"loading":t(({connection:e})=>e.busy)?"working":t(({fault:e})=>e)?"fault":"ready"}var If="cuspway first steps seen",n_="upper_distal_extension",vc={movement:"left lateral",start:"MI",travel_mm:2,opening_mm:0,map:"pose"},i_="right",s_=[{id:"try-1",words:"Slide to the left. In the case as it is, replacement tooth 15 rubs on 46 from 1.5 to 2.9 mm, on the nonworking side.",button:"Left lateral, 2 mm",settings:{},state:vc},{id:"try-2",words:"Make the right condylar guide steeper, 35° to 45°. The jaw drops more on that side, and 15 is free.",button:"Right condyle 45°",settings:{"guidance.right.condylar_inclination_deg":45},state:vc},{id:"try-3",words:"Back at 35°, give the right condyle an immediate side shift of 0.5 mm. 15 touches sooner, from 1.1 mm, and 17 rubs on 47 as well.",button:"Side shift 0.5 mm",settings:{"guidance.right.immediate_shift_mm":.5},state:vc}];function Pf(i){if(r_())return;let t=A("section",{id:"first-steps","aria-labelledby":"first-steps-title"},A("div",{class:"panel-head"},A("h2",{id:"first-steps-title",text:"Try this"}),A("button",{type:"button",id:"first-steps-close",class:"icon-only","aria-label":"Put “Try this” away",title:"Put away",onclick:()=>{o_(),t.remove(),zt("settings").querySelector("summary")?.focus()}},pn("close")))),e=s_.map(({id:s,words:r,button:o,settings:a,state:l},c)=>A("li",{},A("button",{type:"button",class:"small",id:s,text:o,onclick:()=>{n(c),i(n_,a,l,i_)}}),A("p",{text:r}))),n=s=>e.forEach((r,o)=>Jt(r.lastChild,o===s));n(0),t.append(A("ol",{},e)),zt("settings").prepend(t)}function r_(){try{return localStorage.getItem(If)==="yes"}catch{return!1}}function o_(){try{localStorage.setItem(If,"yes")}catch{}}var er,Mc,yo=class{constructor(t){Tt(this,er);this.present=t,this.past=[],this.future=[],this.gesture=null,this.run=null}put(t,e=null,n=null){if(t===this.present)return;e!==null&&e===this.gesture||n!==null&&n===this.run||(this.past.push(this.present),this.past.length>200&&this.past.shift()),this.future=[],this.gesture=e,this.run=n,this.present=t}amend(t){this.present=t}end(){this.gesture=null}get canUndo(){return this.past.length>0}get canRedo(){return this.future.length>0}undo(){return E(this,er,Mc).call(this,this.past,this.future)}redo(){return E(this,er,Mc).call(this,this.future,this.past)}};er=new WeakSet,Mc=function(t,e){return this.gesture=null,this.run=null,t.length===0?!1:(e.push(this.present),this.present=t.pop(),!0)};var Lf=[["solid","solid"],["ghosted","ghosted"],["away","away"]],Of=[["front","Front"],["right","Right"],["left","Left"],["upper occlusal","Upper occlusal surface"],["lower occlusal","Lower occlusal surface"],["mouth","Into the mouth"],["behind","Behind"]],a_=[["pose","gap in this pose"],["excursion","nearest in whole excursion"],["none","none"]],Nf={"upper occlusal":"lower","lower occlusal":"upper",mouth:"upper"};function Ff(i,t){let e={look:t},[n,s]=[Nf[i.look],Nf[t]];return n&&n!==s&&i[n]==="away"&&(e[n]="solid"),s&&i[s]==="solid"&&(e[s]="away"),e}var Bf=Of.map(([i])=>i);function kf(i){let t=Ni("upper-shown","Upper",Lf,l=>i.display({upper:l})),e=Ni("lower-shown","Lower",Lf,l=>i.display({lower:l})),n=Df("map-shown","Colours",a_,i.map),s=Df("look-from","View",Of,i.look),r=Uf("around-shown","gums, base",l=>i.display({around:l})),o=Uf("numbers-shown","numbers",l=>i.display({numbers:l})),a=A("button",{type:"button",id:"look-again",class:"small",text:"Fit",title:"Look from there again, at all of it",onclick:()=>i.look(s.input.value)});return s.element.append(a),zt("look-bar").append(s.element,t.element,e.element,n.element,A("div",{class:"toggles"},r.element,o.element)),{update({display:l,map:c}){t.update(l.upper),e.update(l.lower),Rt(n.input,{value:c}),Rt(s.input,{value:l.look}),Rt(r.input,{checked:l.around}),Rt(o.input,{checked:l.numbers})}}}function Df(i,t,e,n){let s=A("select",{id:i,onchange:()=>n(s.value)},e.map(([r,o])=>A("option",{value:r,text:o})));return{input:s,element:A("div",{class:"chosen"},A("label",{for:i,text:t}),s)}}function Uf(i,t,e){let n=A("input",{type:"checkbox",id:i,onchange:()=>e(n.checked)});return{input:n,element:A("label",{class:"toggle",for:i},n,A("span",{text:t}))}}var l_=1500,zf={fault:"■",apart:"▲",info:""},vo=class{constructor(){this.rows=new Map,this.place=zt("notices"),this.spoken=zt("spoken")}tell(t,e,n,{keeps:s=!1,act:r=null}={}){let o=this.rows.get(t);if(o&&o.words===n||(o?.element.remove(),this.rows.delete(t),!n))return;let a=s?null:A("button",{type:"button",class:"icon-only","aria-label":"Put away",onclick:()=>this.tell(t,e,"")},pn("close")),l=zf[e]?A("span",{class:"sign","aria-hidden":"true",text:zf[e]}):null,c=A("div",{class:`notice ${e}`,id:`notice-${t}`},l,A("p",{text:n}),r&&A("button",{type:"button",class:"small",id:`notice-${t}-act`,text:r.words,onclick:r.call}),a);this.place.append(c),this.rows.set(t,{words:n,element:c})}say(t){this.wanted=t,!this.timer&&(this.timer=setTimeout(()=>{this.timer=0,this.wanted!==this.spoken.textContent&&(this.spoken.textContent=this.wanted)},l_))}};var Rn=(i,t)=>i[0]*t[0]+i[1]*t[1]+i[2]*t[2],Sc=(i,t)=>[i[1]*t[2]-i[2]*t[1],i[2]*t[0]-i[0]*t[2],i[0]*t[1]-i[1]*t[0]],tn=(i,t,e=1)=>[i[0]+e*t[0],i[1]+e*t[1],i[2]+e*t[2]];function nr(i){let t=Math.hypot(i[0],i[1],i[2])||1;return[i[0]/t,i[1]/t,i[2]/t]}function bc(i,t,e){let n=Math.cos(e),s=Math.sin(e),r=(1-n)*Rn(t,i),o=Sc(t,i);return[0,1,2].map(a=>n*i[a]+s*o[a]+r*t[a])}var ir=Float32Array.from([1,0,0,0,0,1,0,0,0,0,1,0,0,0,0,1]),os=(i,t)=>[i[0]*t[0]+i[1]*t[1]+i[2]*t[2]+i[3],i[4]*t[0]+i[5]*t[1]+i[6]*t[2]+i[7],i[8]*t[0]+i[9]*t[1]+i[10]*t[2]+i[11]];function as(i,t){let e=t[0]-i[3],n=t[1]-i[7],s=t[2]-i[11];return[i[0]*e+i[4]*n+i[8]*s,i[1]*e+i[5]*n+i[9]*s,i[2]*e+i[6]*n+i[10]*s]}var Gf=(i,t)=>[i[0]*t[0]+i[4]*t[1]+i[8]*t[2],i[1]*t[0]+i[5]*t[1]+i[9]*t[2],i[2]*t[0]+i[6]*t[1]+i[10]*t[2]];var Vf=48*Math.PI/180,Mo=[0,0,1],wc={front:{right:[0,1,0],up:Mo},right:{right:[1,0,0],up:Mo},left:{right:[-1,0,0],up:Mo},behind:{right:[0,-1,0],up:Mo},"upper occlusal":{right:[0,1,0],up:[1,0,0]},"lower occlusal":{right:[0,1,0],up:[-1,0,0]},mouth:{right:[0,1,0],up:[-Math.sin(Vf),0,Math.cos(Vf)]}},Xf=Object.keys(wc),Hf=.5,Wf=400,ls,So,bo=class{constructor(){Tt(this,ls);this.width=1,this.height=1,this.centre=[0,0,0],this.pxPerMm=5,this.seen=[1,1],this.directions=0,this.look("front")}get towards(){return Sc(this.up,this.right)}look(t){let e=wc[t];if(!e)throw new Error(`view ${t}: is none of ${Xf.join(", ")}`);this.right=[...e.right],this.up=[...e.up],this.name=t,this.turnedAway=!1,this.directions+=1}get title(){return this.turnedAway?`turned from ${this.name}`:this.name}kept(){let{name:t,turnedAway:e,right:n,up:s,centre:r,pxPerMm:o}=this;return{name:t,turnedAway:e,right:[...n],up:[...s],centre:[...r],pxPerMm:o}}restore(t){let e=o=>Array.isArray(o)&&o.length===3&&o.every(Number.isFinite);if(!(e(t?.right)&&e(t.up)&&e(t.centre)&&t.pxPerMm>0)||!wc[t.name])return!1;let s=nr(t.right),r=tn(t.up,s,-Rn(t.up,s));return Rn(r,r)<1e-6?!1:(Object.assign(this,{name:t.name,turnedAway:!!t.turnedAway,right:s}),this.up=nr(r),this.centre=[...t.centre],this.pxPerMm=Math.min(Math.max(t.pxPerMm,Hf),Wf),E(this,ls,So).call(this),this.directions+=1,!0)}holds(t){let[e,n]=this.project(t);return e>=0&&n>=0&&e<=this.width&&n<=this.height}fit(t,e){let n=t.map(u=>Rn(u,this.right)),s=t.map(u=>Rn(u,this.up)),r=u=>Math.max(...u)-Math.min(...u),o=u=>.5*(Math.max(...u)+Math.min(...u)),a=Math.max(this.width-e.left-e.right,50),l=Math.max(this.height-e.top-e.bottom,50);this.pxPerMm=Math.min(a/r(n),l/r(s));let c=o(t.map(u=>Rn(u,this.towards))),h=o(n)+(e.right-e.left)/2/this.pxPerMm,d=o(s)+(e.top-e.bottom)/2/this.pxPerMm;this.centre=[0,1,2].map(u=>h*this.right[u]+d*this.up[u]+c*this.towards[u]),E(this,ls,So).call(this)}showAsMuch(){let[t,e]=this.seen;this.pxPerMm=Math.min(this.width/t,this.height/e)}turn(t,e){let n=Math.PI/Math.max(300,Math.min(this.width,this.height)),s=this.up,r=bc(this.right,s,-t*n),o=bc(s,r,-e*n);r=nr(r),this.up=nr(tn(o,r,-Rn(o,r))),this.right=r,this.turnedAway=!0,this.directions+=1}pan(t,e){this.centre=tn(this.centre,this.right,-t/this.pxPerMm),this.centre=tn(this.centre,this.up,e/this.pxPerMm)}zoom(t,e=this.width/2,n=this.height/2){let s=Math.min(Math.max(this.pxPerMm*t,Hf),Wf),r=1/this.pxPerMm-1/s;this.centre=tn(this.centre,this.right,(e-this.width/2)*r),this.centre=tn(this.centre,this.up,(this.height/2-n)*r),this.pxPerMm=s,E(this,ls,So).call(this)}project(t){let e=[t[0]-this.centre[0],t[1]-this.centre[1],t[2]-this.centre[2]];return[this.width/2+Rn(e,this.right)*this.pxPerMm,this.height/2-Rn(e,this.up)*this.pxPerMm,Rn(e,this.towards)]}unproject(t,e){let n=tn(this.centre,this.right,(t-this.width/2)/this.pxPerMm);return tn(n,this.up,(this.height/2-e)/this.pxPerMm)}};ls=new WeakSet,So=function(){this.seen=[this.width/this.pxPerMm,this.height/this.pxPerMm]};function $f(i,t){let e=c_(i,t),n=new Int32Array(t).fill(-1),s=new Uint32Array(t),r=new Uint32Array(i.length),o=0,a=l=>(n[l]<0&&(n[l]=o,s[o]=l,o+=1),n[l]);e.forEach((l,c)=>{for(let h=0;h<3;h+=1)r[3*c+h]=a(i[3*l+h])});for(let l=0;l<t;l+=1)a(l);return{index:r,order:s}}function c_(i,t){let{starts:e,around:n}=u_(i,t),s=new Int32Array(t);for(let m=0;m<t;m+=1)s[m]=e[m+1]-e[m];let r=new Int32Array(t),o=new Uint8Array(i.length/3),a=new Uint32Array(i.length/3),l=new Uint32Array(i.length),c=0,h=0,d=17,u=0,f=0;for(;f>=0;){let m=c;for(let v=e[f];v<e[f+1];v+=1){let p=n[v];if(!o[p]){o[p]=1,a[h]=p,h+=1;for(let g=0;g<3;g+=1){let M=i[3*p+g];l[c]=M,c+=1,s[M]-=1,d-r[M]>16&&(r[M]=d,d+=1)}}}for(f=h_(l,m,c,s,r,d);f<0&&c>0;)c-=1,s[l[c]]>0&&(f=l[c]);for(;f<0&&u<t;)s[u]>0?f=u:u+=1}return a}function h_(i,t,e,n,s,r){let o=-1,a=-1;for(let l=t;l<e;l+=1){let c=i[l];if(n[c]===0)continue;let h=r-s[c],d=h+2*n[c]<=16?h:0;d>a&&(a=d,o=c)}return o}function u_(i,t){let e=new Uint32Array(t+1);for(let r of i)e[r+1]+=1;for(let r=0;r<t;r+=1)e[r+1]+=e[r];let n=e.slice(0,t),s=new Uint32Array(i.length);for(let r=0;r<i.length;r+=1)s[n[i[r]]]=Math.floor(r/3),n[i[r]]+=1;return{starts:e,around:s}}function qf(i,t){if(t.length===0)return!1;let e=d_(i),n=0,s=0;for(let r=0;r<t.length;r+=3){for(let o=0;o<3;o+=1){let a=e[t[r+o]],l=e[t[r+(o+1)%3]];a<l?n=n+wo(a,l)|0:l<a&&(n=n-wo(l,a)|0)}s+=f_(i,3*t[r],3*t[r+1],3*t[r+2])}return n===0&&s>0}function d_(i){let t=new Int32Array(Float32Array.from(i,n=>n+0).buffer),e=new Int32Array(i.length/3);for(let n=0;n<e.length;n+=1){let s=wo(t[3*n],t[3*n+1]);e[n]=wo(s,t[3*n+2])}return e}function wo(i,t){let e=Math.imul(i^i>>>15,739982445)^Math.imul(t^t>>>13,695872825);return e=Math.imul(e^e>>>16,73244475),e^e>>>15}function f_(i,t,e,n){return i[t]*(i[e+1]*i[n+2]-i[e+2]*i[n+1])+i[t+1]*(i[e+2]*i[n]-i[e]*i[n+2])+i[t+2]*(i[e]*i[n+1]-i[e+1]*i[n])}var p_=new Set(["upper tooth","lower tooth","replacement tooth"]),Ec=65535;function Jf(i,t,e,n){let s=i.parts.filter(o=>o.arch===e),r=o=>p_.has(o.role)&&!o.around_teeth;return{teeth:Yf(s.filter(r),t,n),around:Yf(s.filter(o=>!r(o)),t,n)}}function Yf(i,t,e){let n=m=>i.reduce((v,p)=>v+t[p[m]].length,0),s=new Float32Array(n("vertices")),r=new Uint32Array(n("faces")),o=new Uint8Array(4*s.length/3),a=new Uint8Array(s.length/3),l=new Uint8Array(s.length/3),c=0,h=0;for(let m of i){s.set(t[m.vertices],3*c);for(let g of t[m.faces])r[h]=g+c,h+=1;m.tooth&&a.set(t[m.tooth],c),m.place&&l.set(t[m.place],c);let v=c+t[m.vertices].length/3,p=[...m_(e[m.role]),255];for(let g=c;g<v;g+=1)o.set(p,4*g);c=v}let{index:d,order:u}=$f(r,c),f={positions:Ao(s,u,3),index:d};return{...f,order:u,colours:Ao(o,u,4),tooth:Ao(a,u,1),place:Ao(l,u,1),shade:g_(f.positions,d),closed:qf(f.positions,d)}}function Ao(i,t,e){let n=new i.constructor(i.length);for(let s=0;s<t.length;s+=1)for(let r=0;r<e;r+=1)n[e*s+r]=i[e*t[s]+r];return n}function m_(i){let t=Number.parseInt(i.slice(1),16);return[t>>16&255,t>>8&255,t&255]}function g_(i,t){let e=__(i,t),n=x_(i,t,e),s=new Int8Array(4*i.length/3);for(let r=0;r<n.length;r+=1)s[4*r]=Math.round(127*e[3*r]),s[4*r+1]=Math.round(127*e[3*r+1]),s[4*r+2]=Math.round(127*e[3*r+2]),s[4*r+3]=Math.round(127*Math.min(1,Math.max(-1,.8*n[r])));return s}function __(i,t){let e=i,n=new Float32Array(i.length);for(let s=0;s<t.length;s+=3){let r=3*t[s],o=3*t[s+1],a=3*t[s+2],l=e[o]-e[r],c=e[o+1]-e[r+1],h=e[o+2]-e[r+2],d=e[a]-e[r],u=e[a+1]-e[r+1],f=e[a+2]-e[r+2],m=c*f-h*u,v=h*d-l*f,p=l*u-c*d;for(let g of[r,o,a])n[g]+=m,n[g+1]+=v,n[g+2]+=p}for(let s=0;s<n.length;s+=3){let r=Math.hypot(n[s],n[s+1],n[s+2])||1;n[s]/=r,n[s+1]/=r,n[s+2]/=r}return n}function x_(i,t,e){let n=i.length/3,s=new Float32Array(n),r=new Float32Array(n),o=i,a=e;Kf(t,(l,c)=>{let h=3*l,d=3*c,u=o[d]-o[h],f=o[d+1]-o[h+1],m=o[d+2]-o[h+2],v=u*u+f*f+m*m;if(v<1e-8)return;let p=Math.sqrt(v),g=(a[h]-a[d])*u+(a[h+1]-a[d+1])*f+(a[h+2]-a[d+2])*m;r[l]+=g/p,r[c]+=g/p,s[l]+=p,s[c]+=p});for(let l=0;l<n;l+=1)r[l]/=s[l]||1;return Ac(Ac(Ac(r,t),t),t)}function Ac(i,t){let e=Float32Array.from(i),n=new Float32Array(i.length).fill(1);return Kf(t,(s,r)=>{e[s]+=i[r],e[r]+=i[s],n[s]+=1,n[r]+=1}),e.map((s,r)=>s/n[r])}function Kf(i,t){for(let e=0;e<i.length;e+=3)t(i[e],i[e+1]),t(i[e+1],i[e+2]),t(i[e+2],i[e])}function jf({positions:i}){let t=[1/0,1/0,1/0],e=[-1/0,-1/0,-1/0];for(let n=0;n<i.length;n+=1){let s=n%3;i[n]<t[s]&&(t[s]=i[n]),i[n]>e[s]&&(e[s]=i[n])}return{low:t,high:e}}var Zf=5;function Qf({low:i,high:t}){let e=(n,s)=>n&1<<s?t[s]+Zf:i[s]-Zf;return Array.from({length:8},(n,s)=>[e(s,0),e(s,1),e(s,2)])}var mi="#1c1f24",Ui="#5b626c",Oi="#ffffff";var y_='system-ui, "Segoe UI", Roboto, "Liberation Sans", "DejaVu Sans", sans-serif',tp={size:12,bold:!1,colour:mi,align:"left",rim:3.5},ep=({size:i,bold:t})=>`${t?"600 ":""}${i}px ${y_}`;function Fe(i,t,e,n,s){let{size:r,bold:o,colour:a,align:l,rim:c}={...tp,...s};i.font=ep({size:r,bold:o}),i.textAlign=l,i.textBaseline="middle",i.lineJoin="round",i.strokeStyle=Oi,i.lineWidth=c,c>0&&i.strokeText(t,e,n),i.fillStyle=a,i.fillText(t,e,n)}function Fi(i,t,e){return i.font=ep({...tp,...e}),i.measureText(t).width}function np(i,t,e,n){let s=[];for(let r of t.split(" ")){let o=s.length?`${s.at(-1)} ${r}`:r;s.length&&Fi(i,o,n)<=e?s[s.length-1]=o:s.push(r)}return s}var cs=10,sp=330,v_={tall:28,low:22},Tc={tall:54,low:24,bare:34},sr={width:184,height:10,beyond:26},Eo={width:92,height:9,beyond:16},ip=[10,5,2,1,.5],M_="#d5d9df";function rr(i,t){let e=i<sp?"low":"tall";return{top:v_[e],bottom:e==="low"?Tc.low:t?Tc.tall:Tc.bare}}function To(i,t,{bar:e}){let{top:n,bottom:s}=rr(t,!!e);return[{x:0,y:0,w:i,h:n},{x:0,y:t-s,w:i,h:s}]}function Rc(i,t,e,n){let[s,r]=To(t,e,n),o=e<sp;i.fillStyle=Oi;for(let{x:a,y:l,w:c,h}of[s,r])i.fillRect(a,l,c,h);i.fillStyle=M_,i.fillRect(0,s.h-1,t,1),i.fillRect(0,r.y,t,1),S_(i,t,s.h,n),b_(i,t,r,n.pxPerMm,o),n.bar&&(o?A_:w_)(i,r,n.bar)}function S_(i,t,e,{title:n,hint:s,left:r,right:o}){let a=e/2,l={size:13,bold:!0},c={colour:Ui},h=Math.max(Fi(i,r,c),Fi(i,o,c))+cs+12,d=s?`   ${s}`:"",[u,f]=[Fi(i,n,l),Fi(i,d,c)],m=u+f<=t-2*h,v=(t-u-(m?f:0))/2;Fe(i,n,v,a,l),m&&Fe(i,d,v+u,a,c),Fe(i,r,cs,a,c),Fe(i,o,t-cs,a,{...c,align:"right"})}function b_(i,t,e,n,s){let r=ip.find(c=>c*n<=.3*t)??ip.at(-1),o=t-cs,a=o-r*n,l=e.y+(s?e.h/2+1:e.h-12);i.strokeStyle=mi,i.lineWidth=2,i.beginPath(),i.moveTo(a,l-5),i.lineTo(a,l+4),i.moveTo(a,l),i.lineTo(o,l),i.moveTo(o,l-5),i.lineTo(o,l+4),i.stroke(),s?Fe(i,`${r} mm`,a-6,l,{size:11,align:"right"}):Fe(i,`${r} mm`,(a+o)/2,l-12,{align:"center"})}function rp(i,t,e,{width:n,height:s,beyond:r},{tooth:o,scale:a}){for(let l=0;l<n;l+=1){let[c,h,d,u]=Zs(a,(l+.5)/n);i.fillStyle=o,i.fillRect(t+l,e,1,s),i.globalAlpha=u/255,i.fillStyle=`rgb(${c} ${h} ${d})`,i.fillRect(t+l,e,1,s),i.globalAlpha=1}i.fillStyle=o,i.fillRect(t+n,e,r,s),i.strokeStyle=Ui,i.lineWidth=1,i.strokeRect(t-.5,e-.5,n+r+1,s+1)}function w_(i,t,e){let s=t.y+22;rp(i,14,s,sr,e);let r=s+sr.height+12;for(let{value:o,text:a}of Rd(e.limitMm)){let l=14+o/e.limitMm*sr.width;i.fillStyle=Ui,i.fillRect(l-.5,s+sr.height,1,3),Fe(i,a,l,r,{size:11,align:"center"})}Fe(i,"more",14+sr.width+20,r,{size:11}),Fe(i,`${e.title}, mm`,13,s-10)}function A_(i,t,e){let n=t.y+t.h/2+1,s={size:11},r=`${e.short}, mm: 0`;Fe(i,r,cs,n,s);let o=cs+Fi(i,r,s)+6;rp(i,o,n-Eo.height/2,Eo,e),Fe(i,`${e.limitMm} and more`,o+Eo.width+Eo.beyond+6,n,s)}var E_="#1c1f24",op=1.2,Ro=16,ap=.5,T_={colour:E_,shape:"o"};function lp(i,t){let{eye:e,display:n}=i,s=R_(i);return{dots:C_(i,t),marks:s,ring:P_(i),axis:U_(i),labels:n.numbers?L_(i):[],numberGround:i.roles["replacement tooth"],frame:{title:O_(e,n),hint:s.some(({hidden:r})=>r)?"dotted: contact behind what is seen":"",...F_(e),pxPerMm:e.pxPerMm,bar:B_(i)}}}function R_(i){let{pose:t}=i;if(!t||i.mapOf()==="excursion")return[];let e=t.travel_mm===0&&t.start==="MI",{colour:n,shape:s}=i.styles[e?"MI":t.movement]??T_,r=t.first?.place,o=(l,c)=>l&&c&&Math.hypot(l[0]-c[0],l[1]-c[1],l[2]-c[2])<.3,a=t.contacts.map(({place:l,side:c})=>({place:l,filled:e||c!=="nonworking",first:o(l,r)}));return r&&!a.some(l=>l.first)&&a.push({place:r,filled:!0,first:!0}),a.map(({place:l,filled:c,first:h})=>{let d=i.placeNow(l),[u,f]=i.eye.project(d),m=i.sight.hides(d,i.eye.towards);return{x:u,y:f,shape:s,colour:n,filled:c,first:h,hidden:m}})}function C_(i,t){let e=i.display.upper==="away",n=[];return i.trail.forEach((s,r)=>{let o=e&&s.lowerPlaces?s.lowerPlaces:s.places,a=I_(i,r,o,e,t);for(let l=0;l<o.length/3;l+=1){let c=cp(i,s,o,l,e),[h,d]=i.eye.project(c);n.push({x:h,y:d,colour:s.colour,filled:s.filled,hidden:a[l]===1})}}),n}function cp(i,t,e,n,s){let r=[e[3*n],e[3*n+1],e[3*n+2]];return s&&t.lowerPlaces?os(i.move,r):r}function I_(i,t,e,n,s){let r=i.trailHidden[t],o=`${i.eye.directions} ${i.displays} ${n?0:i.moves}`,a=e.length/3;if(r&&r.flags.length===a&&(r.key===o||!s))return r.flags;let l=new Uint8Array(a);if(s){for(let c=0;c<a;c+=1){let h=cp(i,i.trail[t],e,c,n);l[c]=i.sight.hides(h,i.eye.towards)?1:0}i.trailHidden[t]={key:o,flags:l}}return l}function P_(i){if(!i.ringed?.place)return null;let[t,e]=i.eye.project(i.ringed.place);return{x:t,y:e}}function L_(i){let{eye:t,sight:e,display:n,ringed:s}=i,r=[];for(let{arch:o,tooth:a,text:l,point:c,strong:h}of i.teeth.labels){let d=e.crown(o,a);if(n[o]==="away"||!d)continue;let u=w=>o==="lower"?os(i.move,w):w,f=s?.upper===a||s?.lower===a;if(!D_(i,u(d.middle),d.radius,o,a))continue;let m=o==="upper"?d.high[2]+op:d.low[2]-op,v=(1-t.towards[2]**2)**2,p=c[2]+v*(m-c[2]),[g,M,I]=t.project(u([c[0],c[1],p]));r.push({...N_(i,g,M,u(d.middle)),far:I,text:l,strong:h,picked:f})}return r}function N_(i,t,e,n){let{eye:s}=i;if(!s.holds(n))return{x:t,y:e};let{top:r,bottom:o}=rr(s.height,i.mapOf()!=="none"),a=(l,c,h)=>Math.min(Math.max(l,c),h);return{x:a(t,Ro,s.width-Ro),y:a(e,r+Ro/2,s.height-o-Ro/2)}}function D_({eye:i,sight:t},e,n,s,r){return[0,-.5,.5].some(o=>!t.isBehindOthers(tn(e,i.right,o*n),i.towards,s,r))}function U_({pose:i,eye:t}){let e=[i?.condyles_mm?.right,i?.condyles_mm?.left];return e.every(n=>n&&t.holds(n))?e.map(n=>t.project(n).slice(0,2)):null}function O_(i,t){let e=i.title,n=[e[0].toUpperCase()+e.slice(1)];for(let s of["upper","lower"])t[s]==="away"&&n.push(`${s} away`),t[s]==="ghosted"&&n.push(`${s} ghosted, crowns only`);return n.join(" · ")}function F_({right:i}){if(Math.abs(i[1])>ap&&Math.abs(i[1])>=Math.abs(i[0])){let[t,e]=["patient's right","patient's left"];return i[1]>0?{left:t,right:e}:{left:e,right:t}}return Math.abs(i[0])>ap?i[0]>0?{left:"back",right:"front"}:{left:"front",right:"back"}:{left:"",right:""}}function B_(i){let t=i.mapOf();return t==="none"?null:{limitMm:i.limitMm,title:t==="excursion"?"least gap on the way":"gap to the opposing arch",short:t==="excursion"?"least gap":"gap",tooth:i.roles["upper tooth"],scale:i.gapScale}}function Cc(i,t,e){let n=new Float32Array(i.length);for(let s=0;s<t.length;s+=1){let r=e.subarray(16*t[s],16*t[s]+16);n.set(as(r,i.subarray(3*s,3*s+3)),3*s)}return n}var k_=[[0,0],[0,-.6],[0,.6],[-.6,0],[.6,0],[-.7,-.7],[.7,-.7],[-.7,.7],[.7,.7],[0,-1.15],[0,1.15],[-1.15,0],[1.15,0]],z_=(i,t)=>i.x<t.x+t.w&&t.x<i.x+i.w&&i.y<t.y+t.h&&t.y<i.y+i.h;function hp(i,t,e){let n=[...t],s=i.map(()=>null),r=i.map((o,a)=>a).sort((o,a)=>i[a].weight-i[o].weight||o-a);for(let o of r){let{x:a,y:l,w:c,h}=i[o];for(let[d,u]of k_){let f={x:a+d*c-c/2,y:l+u*h-h/2,w:c,h};if(f.x>=0&&f.y>=0&&f.x+c<=e.width&&f.y+h<=e.height&&!n.some(v=>z_(f,v))){s[o]=f,n.push(f);break}}}return s}var G_={square:[[-.84,-.84],[.84,-.84],[.84,.84],[-.84,.84]],diamond:[[0,-1.15],[1.15,0],[0,1.15],[-1.15,0]],triangle:[[0,-1.1],[1.05,.8],[-1.05,.8]],"triangle down":[[0,1.1],[1.05,-.8],[-1.05,-.8]],plus:[[-.38,-1.1],[.38,-1.1],[.38,-.38],[1.1,-.38],[1.1,.38],[.38,.38],[.38,1.1],[-.38,1.1],[-.38,.38],[-1.1,.38],[-1.1,-.38],[-.38,-.38]],cross:[[-1,-.55],[-.55,-1],[0,-.45],[.55,-1],[1,-.55],[.45,0],[1,.55],[.55,1],[0,.45],[-.55,1],[-1,.55],[-.45,0]]},V_={s:"square",D:"diamond","^":"triangle",v:"triangle down",P:"plus",x:"cross",X:"cross"},up="#1c1f24",Co="#ffffff";function Ic(i,t,e,n,s){let r=G_[V_[t]??t];if(i.beginPath(),!r){i.arc(e,n,s,0,2*Math.PI);return}r.forEach(([o,a],l)=>{l===0?i.moveTo(e+o*s,n+a*s):i.lineTo(e+o*s,n+a*s)}),i.closePath()}function Pc(i,{x:t,y:e,shape:n,colour:s,filled:r,size:o}){i.lineJoin="round",Ic(i,n,t,e,o),i.strokeStyle=Co,i.lineWidth=5,i.stroke(),i.strokeStyle=up,i.lineWidth=3,i.stroke(),i.fillStyle=r?s:Co,i.fill(),r||(Ic(i,n,t,e,o-1.6),i.strokeStyle=s,i.lineWidth=2.2,i.stroke())}function dp(i,{x:t,y:e,shape:n,colour:s,size:r}){i.lineJoin="round",Ic(i,n,t,e,.8*r),i.strokeStyle=Co,i.lineWidth=3.4,i.globalAlpha=.75,i.stroke(),i.strokeStyle=s,i.lineWidth=1.6,i.globalAlpha=1,i.setLineDash([2.2,1.8]),i.stroke(),i.setLineDash([])}function fp(i,t,e,n){for(let[s,r]of[[Co,5.5],[up,2.5]])i.beginPath(),i.arc(t,e,n,0,2*Math.PI),i.strokeStyle=s,i.lineWidth=r,i.stroke()}var Io=18,hs={contact:5.6,first:7.2,ring:17,dot:1.7},or,Nc,Po=class{constructor(t){Tt(this,or);this.moving=Lc(t,"casts-words"),this.strips=[Lc(t,"casts-frame"),Lc(t,"casts-frame")],this.canvases=[this.moving,...this.strips].map(({canvas:e})=>e)}size(t,e,n){Object.assign(this,{width:t,height:e,ratio:n,shown:""}),E(this,or,Nc).call(this,this.moving,{y:0,h:e})}draw(t){this.moving.clearRect(0,0,this.width,this.height),gp(this.moving,this.width,this.height,t,this.ratio);let e=JSON.stringify(t.frame);e!==this.shown&&(this.shown=e,To(this.width,this.height,t.frame).forEach((n,s)=>{E(this,or,Nc).call(this,this.strips[s],n),Rc(this.strips[s],this.width,this.height,t.frame)}))}};or=new WeakSet,Nc=function(t,{y:e,h:n}){let{canvas:s}=t,[r,o]=[Math.round(this.width*this.ratio),Math.round(n*this.ratio)];(s.width!==r||s.height!==o)&&Object.assign(s,{width:r,height:o}),Object.assign(s.style,{top:`${e}px`,width:"100%",height:`${n}px`}),t.setTransform(this.ratio,0,0,this.ratio,0,-e*this.ratio)};function Lc(i,t){let e=document.createElement("canvas");return e.className=t,e.setAttribute("aria-hidden","true"),Object.assign(e.style,{position:"absolute",left:"0",pointerEvents:"none"}),i.append(e),e.getContext("2d")}function mp(i,t,e,n,s){gp(i,t,e,n,s),Rc(i,t,e,n.frame)}function gp(i,t,e,n,s){n.axis&&W_(i,t,n.axis),$_(i,n.dots),q_(i,n.marks),n.ring&&fp(i,n.ring.x,n.ring.y,hs.ring);let r=[...To(t,e,n.frame)];for(let{x:o,y:a,hidden:l}of n.marks)l||r.push(X_(o,a,7));Z_(i,{width:t,height:e},n,r,s)}function W_(i,t,[e,n]){i.beginPath(),i.moveTo(...e),i.lineTo(...n),i.strokeStyle=Ui,i.lineWidth=1,i.setLineDash([7,3,2,3]),i.stroke(),i.setLineDash([]);for(let[o,a]of[e,n])i.beginPath(),i.arc(o,a,5,0,2*Math.PI),i.fillStyle=Oi,i.fill(),i.strokeStyle=mi,i.lineWidth=1.5,i.stroke(),i.fillStyle=mi,i.fillRect(o-1,a-1,2,2);let s=Math.min(Math.max((e[0]+n[0])/2,55),t-55),r=Math.max(e[1],n[1])+15;Fe(i,"condyle centres",s,r,{colour:Ui,align:"center"})}var X_=(i,t,e)=>({x:i-e,y:t-e,w:2*e,h:2*e});function $_(i,t){for(let e of[!0,!1]){i.globalAlpha=e?.45:1;for(let n of t)n.hidden===e&&(i.beginPath(),i.arc(n.x,n.y,hs.dot,0,2*Math.PI),i.fillStyle=n.colour,i.fill())}i.globalAlpha=1}function q_(i,t){for(let e of t.filter(n=>n.hidden))dp(i,{...e,size:e.first?hs.first:hs.contact});for(let e of t.filter(n=>!n.hidden&&!n.first))Pc(i,{...e,size:hs.contact});for(let e of t.filter(n=>n.first))e.hidden||Pc(i,{...e,size:hs.first}),Y_(i,e.x,e.y)}function Y_(i,t,e){i.lineCap="round";for(let[n,s]of[[Oi,4.4],[mi,2]]){i.beginPath();for(let[r,o]of[[1,0],[-1,0],[0,1],[0,-1]])i.moveTo(t+12*r,e+12*o),i.lineTo(t+18*r,e+18*o);i.strokeStyle=n,i.lineWidth=s,i.stroke()}i.lineCap="butt"}function Z_(i,t,{labels:e,numberGround:n},s,r){let o=e.map(({x:l,y:c,text:h,strong:d,picked:u,far:f})=>({x:l,y:c,w:8*h.length+8,h:Io,weight:(u?1e3:d?100:0)-f/100})),a=hp(o,s,t);e.forEach((l,c)=>{let h=a[c];if(!h)return;let d=J_(l,h.w,n,r),[u,f]=[h.x,h.y].map(m=>Math.round(m*r)/r);i.drawImage(d,u,f,d.width/r,d.height/r)})}var pp=new Map;function J_({text:i,strong:t,picked:e},n,s,r){let o=`${i} ${t} ${e} ${s} ${r}`,a=pp.get(o);if(a)return a;let l=document.createElement("canvas");l.width=Math.ceil(n*r),l.height=Math.ceil(Io*r);let c=l.getContext("2d");c.scale(r,r),(t||e)&&(c.beginPath(),c.roundRect(1,1,n-2,Io-2,4),c.fillStyle=t?s:Oi,c.fill(),c.strokeStyle=mi,c.lineWidth=2,e&&c.stroke());let h=t||e,d={bold:h,align:"center",rim:h?0:3.5};return Fe(c,i,n/2,Io/2+.5,d),pp.set(o,l),l}var Bp=0,ah=1,kp=2;var Rr=1,zp=2,Ds=3,Xn=0,Ke=1,bn=2,Xi=0,Us=1,lh=2,ch=3,hh=4,Gp=5;var $i=100,Vp=101,Hp=102,Wp=103,Xp=104,$p=200,qp=201,Yp=202,Zp=203,uh=204,dh=205,Jp=206,Kp=207,jp=208,Qp=209,tm=210,em=211,nm=212,im=213,sm=214,ta=0,ea=1,na=2,Si=3,ia=4,sa=5,ra=6,oa=7,fh=0,rm=1,om=2,$n=0,ph=1,mh=2,gh=3,_h=4,xh=5,yh=6,vh=7;var Mh=300,qi=301,Os=302,Pa=303,La=304,aa=1e3,Gn=1001,la=1002,Ne=1003,am=1004;var Cr=1005;var De=1006,Na=1007;var li=1008;var ln=1009,Sh=1010,bh=1011,Fs=1012,Da=1013,Dn=1014,Un=1015,On=1016,Ua=1017,Oa=1018,Yi=1020,wh=35902,Ah=35899,Eh=1021,Th=1022,cn=1023,oi=1026,ci=1027,Rh=1028,Fa=1029,Ri=1030,Ba=1031;var ka=1033,Ir=33776,Pr=33777,Lr=33778,Nr=33779,za=35840,Ga=35841,Va=35842,Ha=35843,Wa=36196,Xa=37492,$a=37496,qa=37488,Ya=37489,Dr=37490,Za=37491,Ja=37808,Ka=37809,ja=37810,Qa=37811,tl=37812,el=37813,nl=37814,il=37815,sl=37816,rl=37817,ol=37818,al=37819,ll=37820,cl=37821,hl=36492,ul=36494,dl=36495,fl=36283,pl=36284,Ur=36285,ml=36286;var dr=2300,ca=2301,jo=2302,eh=2303,nh=2400,ih=2401,sh=2402;var lm=3200;var Ch=0,cm=1,hi="",sn="srgb",fr="srgb-linear",pr="linear",ne="srgb";var Qo=7680;var hm=519,um=512,dm=513,fm=514,Ih=515,pm=516,mm=517,Ph=518,Lh=519,gm=35044;var Or="300 es",yn=2e3,mr=2001;function K_(i){for(let t=i.length-1;t>=0;--t)if(i[t]>=65535)return!0;return!1}function j_(i){return ArrayBuffer.isView(i)&&!(i instanceof DataView)}function gr(i){return document.createElementNS("http://www.w3.org/1999/xhtml",i)}function _m(){let i=gr("canvas");return i.style.display="block",i}var _p={},As=null;function Nh(...i){let t="THREE."+i.shift();As?As("log",t,...i):console.log(t,...i)}function xm(i){let t=i[0];if(typeof t=="string"&&t.startsWith("TSL:")){let e=i[1];e&&e.isStackTrace?i[0]+=" "+e.getLocation():i[1]='Stack trace not available. Enable "THREE.Node.captureStackTrace" to capture stack traces.'}return i}function Nt(...i){i=xm(i);let t="THREE."+i.shift();if(As)As("warn",t,...i);else{let e=i[0];e&&e.isStackTrace?console.warn(e.getError(t)):console.warn(t,...i)}}function Ut(...i){i=xm(i);let t="THREE."+i.shift();if(As)As("error",t,...i);else{let e=i[0];e&&e.isStackTrace?console.error(e.getError(t)):console.error(t,...i)}}function ur(...i){let t=i.join(" ");t in _p||(_p[t]=!0,Nt(...i))}function ym(i,t,e){return new Promise(function(n,s){function r(){switch(i.clientWaitSync(t,i.SYNC_FLUSH_COMMANDS_BIT,0)){case i.WAIT_FAILED:s();break;case i.TIMEOUT_EXPIRED:setTimeout(r,e);break;default:n()}}setTimeout(r,e)})}var vm={[ta]:ta,[na]:ra,[ia]:ia,[Si]:sa,[ea]:ea,[ra]:na,[oa]:oa,[sa]:Si},Vn=class{addEventListener(t,e){this._listeners===void 0&&(this._listeners={});let n=this._listeners;n[t]===void 0&&(n[t]=[]),n[t].indexOf(e)===-1&&n[t].push(e)}hasEventListener(t,e){let n=this._listeners;return n===void 0?!1:n[t]!==void 0&&n[t].indexOf(e)!==-1}removeEventListener(t,e){let n=this._listeners;if(n===void 0)return;let s=n[t];if(s!==void 0){let r=s.indexOf(e);r!==-1&&s.splice(r,1)}}dispatchEvent(t){let e=this._listeners;if(e===void 0)return;let n=e[t.type];if(n!==void 0){t.target=this;let s=n.slice(0);for(let r=0,o=s.length;r<o;r++)s[r].call(this,t);t.target=null}}},Ve=["00","01","02","03","04","05","06","07","08","09","0a","0b","0c","0d","0e","0f","10","11","12","13","14","15","16","17","18","19","1a","1b","1c","1d","1e","1f","20","21","22","23","24","25","26","27","28","29","2a","2b","2c","2d","2e","2f","30","31","32","33","34","35","36","37","38","39","3a","3b","3c","3d","3e","3f","40","41","42","43","44","45","46","47","48","49","4a","4b","4c","4d","4e","4f","50","51","52","53","54","55","56","57","58","59","5a","5b","5c","5d","5e","5f","60","61","62","63","64","65","66","67","68","69","6a","6b","6c","6d","6e","6f","70","71","72","73","74","75","76","77","78","79","7a","7b","7c","7d","7e","7f","80","81","82","83","84","85","86","87","88","89","8a","8b","8c","8d","8e","8f","90","91","92","93","94","95","96","97","98","99","9a","9b","9c","9d","9e","9f","a0","a1","a2","a3","a4","a5","a6","a7","a8","a9","aa","ab","ac","ad","ae","af","b0","b1","b2","b3","b4","b5","b6","b7","b8","b9","ba","bb","bc","bd","be","bf","c0","c1","c2","c3","c4","c5","c6","c7","c8","c9","ca","cb","cc","cd","ce","cf","d0","d1","d2","d3","d4","d5","d6","d7","d8","d9","da","db","dc","dd","de","df","e0","e1","e2","e3","e4","e5","e6","e7","e8","e9","ea","eb","ec","ed","ee","ef","f0","f1","f2","f3","f4","f5","f6","f7","f8","f9","fa","fb","fc","fd","fe","ff"];var Dc=Math.PI/180,ha=180/Math.PI;function Fr(){let i=Math.random()*4294967295|0,t=Math.random()*4294967295|0,e=Math.random()*4294967295|0,n=Math.random()*4294967295|0;return(Ve[i&255]+Ve[i>>8&255]+Ve[i>>16&255]+Ve[i>>24&255]+"-"+Ve[t&255]+Ve[t>>8&255]+"-"+Ve[t>>16&15|64]+Ve[t>>24&255]+"-"+Ve[e&63|128]+Ve[e>>8&255]+"-"+Ve[e>>16&255]+Ve[e>>24&255]+Ve[n&255]+Ve[n>>8&255]+Ve[n>>16&255]+Ve[n>>24&255]).toLowerCase()}function Kt(i,t,e){return Math.max(t,Math.min(e,i))}function Q_(i,t){return(i%t+t)%t}function Uc(i,t,e){return(1-e)*i+e*t}function Mm(i){return Math.pow(2,Math.floor(Math.log(i)/Math.LN2))}function Dh(i){switch(i.constructor){case Uint32Array:return 4294967295;case Uint16Array:return 65535;case Uint8Array:case Uint8ClampedArray:return 255;case Int32Array:return 2147483647;case Int16Array:return 32767;case Int8Array:return 127;default:return}}function tx(i,t){if(t.constructor===Float32Array)return i;let e=Dh(t);if(e===void 0)throw new Error("THREE.MathUtils: Invalid component type.");return Math.max(i/e,-1)}function ex(i,t){if(t.constructor===Float32Array)return i;let e=Dh(t);if(e===void 0)throw new Error("THREE.MathUtils: Invalid component type.");return Math.round(i*e)}var kh=class kh{constructor(t=0,e=0){this.x=t,this.y=e}get width(){return this.x}set width(t){this.x=t}get height(){return this.y}set height(t){this.y=t}set(t,e){return this.x=t,this.y=e,this}setScalar(t){return this.x=t,this.y=t,this}setX(t){return this.x=t,this}setY(t){return this.y=t,this}setComponent(t,e){switch(t){case 0:this.x=e;break;case 1:this.y=e;break;default:throw new Error("THREE.Vector2: index is out of range: "+t)}return this}getComponent(t){switch(t){case 0:return this.x;case 1:return this.y;default:throw new Error("THREE.Vector2: index is out of range: "+t)}}clone(){return new this.constructor(this.x,this.y)}copy(t){return this.x=t.x,this.y=t.y,this}add(t){return this.x+=t.x,this.y+=t.y,this}addScalar(t){return this.x+=t,this.y+=t,this}addVectors(t,e){return this.x=t.x+e.x,this.y=t.y+e.y,this}addScaledVector(t,e){return this.x+=t.x*e,this.y+=t.y*e,this}sub(t){return this.x-=t.x,this.y-=t.y,this}subScalar(t){return this.x-=t,this.y-=t,this}subVectors(t,e){return this.x=t.x-e.x,this.y=t.y-e.y,this}multiply(t){return this.x*=t.x,this.y*=t.y,this}multiplyScalar(t){return this.x*=t,this.y*=t,this}divide(t){return this.x/=t.x,this.y/=t.y,this}divideScalar(t){return this.multiplyScalar(1/t)}applyMatrix3(t){let e=this.x,n=this.y,s=t.elements;return this.x=s[0]*e+s[3]*n+s[6],this.y=s[1]*e+s[4]*n+s[7],this}min(t){return this.x=Math.min(this.x,t.x),this.y=Math.min(this.y,t.y),this}max(t){return this.x=Math.max(this.x,t.x),this.y=Math.max(this.y,t.y),this}clamp(t,e){return this.x=Kt(this.x,t.x,e.x),this.y=Kt(this.y,t.y,e.y),this}clampScalar(t,e){return this.x=Kt(this.x,t,e),this.y=Kt(this.y,t,e),this}clampLength(t,e){let n=this.length();return this.divideScalar(n||1).multiplyScalar(Kt(n,t,e))}floor(){return this.x=Math.floor(this.x),this.y=Math.floor(this.y),this}ceil(){return this.x=Math.ceil(this.x),this.y=Math.ceil(this.y),this}round(){return this.x=Math.round(this.x),this.y=Math.round(this.y),this}roundToZero(){return this.x=Math.trunc(this.x),this.y=Math.trunc(this.y),this}negate(){return this.x=-this.x,this.y=-this.y,this}dot(t){return this.x*t.x+this.y*t.y}cross(t){return this.x*t.y-this.y*t.x}lengthSq(){return this.x*this.x+this.y*this.y}length(){return Math.sqrt(this.x*this.x+this.y*this.y)}manhattanLength(){return Math.abs(this.x)+Math.abs(this.y)}normalize(){return this.divideScalar(this.length()||1)}angle(){return Math.atan2(-this.y,-this.x)+Math.PI}angleTo(t){let e=Math.sqrt(this.lengthSq()*t.lengthSq());if(e===0)return Math.PI/2;let n=this.dot(t)/e;return Math.acos(Kt(n,-1,1))}distanceTo(t){return Math.sqrt(this.distanceToSquared(t))}distanceToSquared(t){let e=this.x-t.x,n=this.y-t.y;return e*e+n*n}manhattanDistanceTo(t){return Math.abs(this.x-t.x)+Math.abs(this.y-t.y)}setLength(t){return this.normalize().multiplyScalar(t)}lerp(t,e){return this.x+=(t.x-this.x)*e,this.y+=(t.y-this.y)*e,this}lerpVectors(t,e,n){return this.x=t.x+(e.x-t.x)*n,this.y=t.y+(e.y-t.y)*n,this}equals(t){return t.x===this.x&&t.y===this.y}fromArray(t,e=0){return this.x=t[e],this.y=t[e+1],this}toArray(t=[],e=0){return t[e]=this.x,t[e+1]=this.y,t}fromBufferAttribute(t,e){return this.x=t.getX(e),this.y=t.getY(e),this}rotateAround(t,e){let n=Math.cos(e),s=Math.sin(e),r=this.x-t.x,o=this.y-t.y;return this.x=r*n-o*s+t.x,this.y=r*s+o*n+t.y,this}random(){return this.x=Math.random(),this.y=Math.random(),this}*[Symbol.iterator](){yield this.x,yield this.y}};kh.prototype.isVector2=!0;var te=kh,Hn=class{constructor(t=0,e=0,n=0,s=1){this.isQuaternion=!0,this._x=t,this._y=e,this._z=n,this._w=s}static slerpFlat(t,e,n,s,r,o,a){let l=n[s+0],c=n[s+1],h=n[s+2],d=n[s+3],u=r[o+0],f=r[o+1],m=r[o+2],v=r[o+3];if(d!==v||l!==u||c!==f||h!==m){let p=l*u+c*f+h*m+d*v;p<0&&(u=-u,f=-f,m=-m,v=-v,p=-p);let g=1-a;if(p<.9995){let M=Math.acos(p),I=Math.sin(M);g=Math.sin(g*M)/I,a=Math.sin(a*M)/I,l=l*g+u*a,c=c*g+f*a,h=h*g+m*a,d=d*g+v*a}else{l=l*g+u*a,c=c*g+f*a,h=h*g+m*a,d=d*g+v*a;let M=1/Math.sqrt(l*l+c*c+h*h+d*d);l*=M,c*=M,h*=M,d*=M}}t[e]=l,t[e+1]=c,t[e+2]=h,t[e+3]=d}static multiplyQuaternionsFlat(t,e,n,s,r,o){let a=n[s],l=n[s+1],c=n[s+2],h=n[s+3],d=r[o],u=r[o+1],f=r[o+2],m=r[o+3];return t[e]=a*m+h*d+l*f-c*u,t[e+1]=l*m+h*u+c*d-a*f,t[e+2]=c*m+h*f+a*u-l*d,t[e+3]=h*m-a*d-l*u-c*f,t}get x(){return this._x}set x(t){this._x=t,this._onChangeCallback()}get y(){return this._y}set y(t){this._y=t,this._onChangeCallback()}get z(){return this._z}set z(t){this._z=t,this._onChangeCallback()}get w(){return this._w}set w(t){this._w=t,this._onChangeCallback()}set(t,e,n,s){return this._x=t,this._y=e,this._z=n,this._w=s,this._onChangeCallback(),this}clone(){return new this.constructor(this._x,this._y,this._z,this._w)}copy(t){return this._x=t.x,this._y=t.y,this._z=t.z,this._w=t.w,this._onChangeCallback(),this}setFromEuler(t,e=!0){let n=t._x,s=t._y,r=t._z,o=t._order,a=Math.cos,l=Math.sin,c=a(n/2),h=a(s/2),d=a(r/2),u=l(n/2),f=l(s/2),m=l(r/2);switch(o){case"XYZ":this._x=u*h*d+c*f*m,this._y=c*f*d-u*h*m,this._z=c*h*m+u*f*d,this._w=c*h*d-u*f*m;break;case"YXZ":this._x=u*h*d+c*f*m,this._y=c*f*d-u*h*m,this._z=c*h*m-u*f*d,this._w=c*h*d+u*f*m;break;case"ZXY":this._x=u*h*d-c*f*m,this._y=c*f*d+u*h*m,this._z=c*h*m+u*f*d,this._w=c*h*d-u*f*m;break;case"ZYX":this._x=u*h*d-c*f*m,this._y=c*f*d+u*h*m,this._z=c*h*m-u*f*d,this._w=c*h*d+u*f*m;break;case"YZX":this._x=u*h*d+c*f*m,this._y=c*f*d+u*h*m,this._z=c*h*m-u*f*d,this._w=c*h*d-u*f*m;break;case"XZY":this._x=u*h*d-c*f*m,this._y=c*f*d-u*h*m,this._z=c*h*m+u*f*d,this._w=c*h*d+u*f*m;break;default:Nt("Quaternion: .setFromEuler() encountered an unknown order: "+o)}return e===!0&&this._onChangeCallback(),this}setFromAxisAngle(t,e){let n=e/2,s=Math.sin(n);return this._x=t.x*s,this._y=t.y*s,this._z=t.z*s,this._w=Math.cos(n),this._onChangeCallback(),this}setFromRotationMatrix(t){let e=t.elements,n=e[0],s=e[4],r=e[8],o=e[1],a=e[5],l=e[9],c=e[2],h=e[6],d=e[10],u=n+a+d;if(u>0){let f=.5/Math.sqrt(u+1);this._w=.25/f,this._x=(h-l)*f,this._y=(r-c)*f,this._z=(o-s)*f}else if(n>a&&n>d){let f=2*Math.sqrt(1+n-a-d);this._w=(h-l)/f,this._x=.25*f,this._y=(s+o)/f,this._z=(r+c)/f}else if(a>d){let f=2*Math.sqrt(1+a-n-d);this._w=(r-c)/f,this._x=(s+o)/f,this._y=.25*f,this._z=(l+h)/f}else{let f=2*Math.sqrt(1+d-n-a);this._w=(o-s)/f,this._x=(r+c)/f,this._y=(l+h)/f,this._z=.25*f}return this._onChangeCallback(),this}setFromUnitVectors(t,e){let n=t.dot(e)+1;return n<1e-8?(n=0,Math.abs(t.x)>Math.abs(t.z)?(this._x=-t.y,this._y=t.x,this._z=0,this._w=n):(this._x=0,this._y=-t.z,this._z=t.y,this._w=n)):(this._x=t.y*e.z-t.z*e.y,this._y=t.z*e.x-t.x*e.z,this._z=t.x*e.y-t.y*e.x,this._w=n),this.normalize()}angleTo(t){return 2*Math.acos(Math.abs(Kt(this.dot(t),-1,1)))}rotateTowards(t,e){let n=this.angleTo(t);if(n===0)return this;let s=Math.min(1,e/n);return this.slerp(t,s),this}identity(){return this.set(0,0,0,1)}invert(){return this.conjugate()}conjugate(){return this._x*=-1,this._y*=-1,this._z*=-1,this._onChangeCallback(),this}dot(t){return this._x*t._x+this._y*t._y+this._z*t._z+this._w*t._w}lengthSq(){return this._x*this._x+this._y*this._y+this._z*this._z+this._w*this._w}length(){return Math.sqrt(this._x*this._x+this._y*this._y+this._z*this._z+this._w*this._w)}normalize(){let t=this.length();return t===0?(this._x=0,this._y=0,this._z=0,this._w=1):(t=1/t,this._x=this._x*t,this._y=this._y*t,this._z=this._z*t,this._w=this._w*t),this._onChangeCallback(),this}multiply(t){return this.multiplyQuaternions(this,t)}premultiply(t){return this.multiplyQuaternions(t,this)}multiplyQuaternions(t,e){let n=t._x,s=t._y,r=t._z,o=t._w,a=e._x,l=e._y,c=e._z,h=e._w;return this._x=n*h+o*a+s*c-r*l,this._y=s*h+o*l+r*a-n*c,this._z=r*h+o*c+n*l-s*a,this._w=o*h-n*a-s*l-r*c,this._onChangeCallback(),this}slerp(t,e){let n=t._x,s=t._y,r=t._z,o=t._w,a=this.dot(t);a<0&&(n=-n,s=-s,r=-r,o=-o,a=-a);let l=1-e;if(a<.9995){let c=Math.acos(a),h=Math.sin(c);l=Math.sin(l*c)/h,e=Math.sin(e*c)/h,this._x=this._x*l+n*e,this._y=this._y*l+s*e,this._z=this._z*l+r*e,this._w=this._w*l+o*e,this._onChangeCallback()}else this._x=this._x*l+n*e,this._y=this._y*l+s*e,this._z=this._z*l+r*e,this._w=this._w*l+o*e,this.normalize();return this}slerpQuaternions(t,e,n){return this.copy(t).slerp(e,n)}random(){let t=2*Math.PI*Math.random(),e=2*Math.PI*Math.random(),n=Math.random(),s=Math.sqrt(1-n),r=Math.sqrt(n);return this.set(s*Math.sin(t),s*Math.cos(t),r*Math.sin(e),r*Math.cos(e))}equals(t){return t._x===this._x&&t._y===this._y&&t._z===this._z&&t._w===this._w}fromArray(t,e=0){return this._x=t[e],this._y=t[e+1],this._z=t[e+2],this._w=t[e+3],this._onChangeCallback(),this}toArray(t=[],e=0){return t[e]=this._x,t[e+1]=this._y,t[e+2]=this._z,t[e+3]=this._w,t}fromBufferAttribute(t,e){return this._x=t.getX(e),this._y=t.getY(e),this._z=t.getZ(e),this._w=t.getW(e),this._onChangeCallback(),this}toJSON(){return this.toArray()}_onChange(t){return this._onChangeCallback=t,this}_onChangeCallback(){}*[Symbol.iterator](){yield this._x,yield this._y,yield this._z,yield this._w}},zh=class zh{constructor(t=0,e=0,n=0){this.x=t,this.y=e,this.z=n}set(t,e,n){return n===void 0&&(n=this.z),this.x=t,this.y=e,this.z=n,this}setScalar(t){return this.x=t,this.y=t,this.z=t,this}setX(t){return this.x=t,this}setY(t){return this.y=t,this}setZ(t){return this.z=t,this}setComponent(t,e){switch(t){case 0:this.x=e;break;case 1:this.y=e;break;case 2:this.z=e;break;default:throw new Error("THREE.Vector3: index is out of range: "+t)}return this}getComponent(t){switch(t){case 0:return this.x;case 1:return this.y;case 2:return this.z;default:throw new Error("THREE.Vector3: index is out of range: "+t)}}clone(){return new this.constructor(this.x,this.y,this.z)}copy(t){return this.x=t.x,this.y=t.y,this.z=t.z,this}add(t){return this.x+=t.x,this.y+=t.y,this.z+=t.z,this}addScalar(t){return this.x+=t,this.y+=t,this.z+=t,this}addVectors(t,e){return this.x=t.x+e.x,this.y=t.y+e.y,this.z=t.z+e.z,this}addScaledVector(t,e){return this.x+=t.x*e,this.y+=t.y*e,this.z+=t.z*e,this}sub(t){return this.x-=t.x,this.y-=t.y,this.z-=t.z,this}subScalar(t){return this.x-=t,this.y-=t,this.z-=t,this}subVectors(t,e){return this.x=t.x-e.x,this.y=t.y-e.y,this.z=t.z-e.z,this}multiply(t){return this.x*=t.x,this.y*=t.y,this.z*=t.z,this}multiplyScalar(t){return this.x*=t,this.y*=t,this.z*=t,this}multiplyVectors(t,e){return this.x=t.x*e.x,this.y=t.y*e.y,this.z=t.z*e.z,this}applyEuler(t){return this.applyQuaternion(xp.setFromEuler(t))}applyAxisAngle(t,e){return this.applyQuaternion(xp.setFromAxisAngle(t,e))}applyMatrix3(t){let e=this.x,n=this.y,s=this.z,r=t.elements;return this.x=r[0]*e+r[3]*n+r[6]*s,this.y=r[1]*e+r[4]*n+r[7]*s,this.z=r[2]*e+r[5]*n+r[8]*s,this}applyNormalMatrix(t){return this.applyMatrix3(t).normalize()}applyMatrix4(t){let e=this.x,n=this.y,s=this.z,r=t.elements,o=1/(r[3]*e+r[7]*n+r[11]*s+r[15]);return this.x=(r[0]*e+r[4]*n+r[8]*s+r[12])*o,this.y=(r[1]*e+r[5]*n+r[9]*s+r[13])*o,this.z=(r[2]*e+r[6]*n+r[10]*s+r[14])*o,this}applyQuaternion(t){let e=this.x,n=this.y,s=this.z,r=t.x,o=t.y,a=t.z,l=t.w,c=2*(o*s-a*n),h=2*(a*e-r*s),d=2*(r*n-o*e);return this.x=e+l*c+o*d-a*h,this.y=n+l*h+a*c-r*d,this.z=s+l*d+r*h-o*c,this}project(t){return this.applyMatrix4(t.matrixWorldInverse).applyMatrix4(t.projectionMatrix)}unproject(t){return this.applyMatrix4(t.projectionMatrixInverse).applyMatrix4(t.matrixWorld)}transformDirection(t){let e=this.x,n=this.y,s=this.z,r=t.elements;return this.x=r[0]*e+r[4]*n+r[8]*s,this.y=r[1]*e+r[5]*n+r[9]*s,this.z=r[2]*e+r[6]*n+r[10]*s,this.normalize()}divide(t){return this.x/=t.x,this.y/=t.y,this.z/=t.z,this}divideScalar(t){return this.multiplyScalar(1/t)}min(t){return this.x=Math.min(this.x,t.x),this.y=Math.min(this.y,t.y),this.z=Math.min(this.z,t.z),this}max(t){return this.x=Math.max(this.x,t.x),this.y=Math.max(this.y,t.y),this.z=Math.max(this.z,t.z),this}clamp(t,e){return this.x=Kt(this.x,t.x,e.x),this.y=Kt(this.y,t.y,e.y),this.z=Kt(this.z,t.z,e.z),this}clampScalar(t,e){return this.x=Kt(this.x,t,e),this.y=Kt(this.y,t,e),this.z=Kt(this.z,t,e),this}clampLength(t,e){let n=this.length();return this.divideScalar(n||1).multiplyScalar(Kt(n,t,e))}floor(){return this.x=Math.floor(this.x),this.y=Math.floor(this.y),this.z=Math.floor(this.z),this}ceil(){return this.x=Math.ceil(this.x),this.y=Math.ceil(this.y),this.z=Math.ceil(this.z),this}round(){return this.x=Math.round(this.x),this.y=Math.round(this.y),this.z=Math.round(this.z),this}roundToZero(){return this.x=Math.trunc(this.x),this.y=Math.trunc(this.y),this.z=Math.trunc(this.z),this}negate(){return this.x=-this.x,this.y=-this.y,this.z=-this.z,this}dot(t){return this.x*t.x+this.y*t.y+this.z*t.z}lengthSq(){return this.x*this.x+this.y*this.y+this.z*this.z}length(){return Math.sqrt(this.x*this.x+this.y*this.y+this.z*this.z)}manhattanLength(){return Math.abs(this.x)+Math.abs(this.y)+Math.abs(this.z)}normalize(){return this.divideScalar(this.length()||1)}setLength(t){return this.normalize().multiplyScalar(t)}lerp(t,e){return this.x+=(t.x-this.x)*e,this.y+=(t.y-this.y)*e,this.z+=(t.z-this.z)*e,this}lerpVectors(t,e,n){return this.x=t.x+(e.x-t.x)*n,this.y=t.y+(e.y-t.y)*n,this.z=t.z+(e.z-t.z)*n,this}cross(t){return this.crossVectors(this,t)}crossVectors(t,e){let n=t.x,s=t.y,r=t.z,o=e.x,a=e.y,l=e.z;return this.x=s*l-r*a,this.y=r*o-n*l,this.z=n*a-s*o,this}projectOnVector(t){let e=t.lengthSq();if(e===0)return this.set(0,0,0);let n=t.dot(this)/e;return this.copy(t).multiplyScalar(n)}projectOnPlane(t){return Oc.copy(this).projectOnVector(t),this.sub(Oc)}reflect(t){return this.sub(Oc.copy(t).multiplyScalar(2*this.dot(t)))}angleTo(t){let e=Math.sqrt(this.lengthSq()*t.lengthSq());if(e===0)return Math.PI/2;let n=this.dot(t)/e;return Math.acos(Kt(n,-1,1))}distanceTo(t){return Math.sqrt(this.distanceToSquared(t))}distanceToSquared(t){let e=this.x-t.x,n=this.y-t.y,s=this.z-t.z;return e*e+n*n+s*s}manhattanDistanceTo(t){return Math.abs(this.x-t.x)+Math.abs(this.y-t.y)+Math.abs(this.z-t.z)}setFromSpherical(t){return this.setFromSphericalCoords(t.radius,t.phi,t.theta)}setFromSphericalCoords(t,e,n){let s=Math.sin(e)*t;return this.x=s*Math.sin(n),this.y=Math.cos(e)*t,this.z=s*Math.cos(n),this}setFromCylindrical(t){return this.setFromCylindricalCoords(t.radius,t.theta,t.y)}setFromCylindricalCoords(t,e,n){return this.x=t*Math.sin(e),this.y=n,this.z=t*Math.cos(e),this}setFromMatrixPosition(t){let e=t.elements;return this.x=e[12],this.y=e[13],this.z=e[14],this}setFromMatrixScale(t){let e=this.setFromMatrixColumn(t,0).length(),n=this.setFromMatrixColumn(t,1).length(),s=this.setFromMatrixColumn(t,2).length();return this.x=e,this.y=n,this.z=s,this}setFromMatrixColumn(t,e){return this.fromArray(t.elements,e*4)}setFromMatrix3Column(t,e){return this.fromArray(t.elements,e*3)}setFromEuler(t){return this.x=t._x,this.y=t._y,this.z=t._z,this}setFromColor(t){return this.x=t.r,this.y=t.g,this.z=t.b,this}equals(t){return t.x===this.x&&t.y===this.y&&t.z===this.z}fromArray(t,e=0){return this.x=t[e],this.y=t[e+1],this.z=t[e+2],this}toArray(t=[],e=0){return t[e]=this.x,t[e+1]=this.y,t[e+2]=this.z,t}fromBufferAttribute(t,e){return this.x=t.getX(e),this.y=t.getY(e),this.z=t.getZ(e),this}random(){return this.x=Math.random(),this.y=Math.random(),this.z=Math.random(),this}randomDirection(){let t=Math.random()*Math.PI*2,e=Math.random()*2-1,n=Math.sqrt(1-e*e);return this.x=n*Math.cos(t),this.y=e,this.z=n*Math.sin(t),this}*[Symbol.iterator](){yield this.x,yield this.y,yield this.z}};zh.prototype.isVector3=!0;var V=zh,Oc=new V,xp=new Hn,Gh=class Gh{constructor(t,e,n,s,r,o,a,l,c){this.elements=[1,0,0,0,1,0,0,0,1],t!==void 0&&this.set(t,e,n,s,r,o,a,l,c)}set(t,e,n,s,r,o,a,l,c){let h=this.elements;return h[0]=t,h[1]=s,h[2]=a,h[3]=e,h[4]=r,h[5]=l,h[6]=n,h[7]=o,h[8]=c,this}identity(){return this.set(1,0,0,0,1,0,0,0,1),this}copy(t){let e=this.elements,n=t.elements;return e[0]=n[0],e[1]=n[1],e[2]=n[2],e[3]=n[3],e[4]=n[4],e[5]=n[5],e[6]=n[6],e[7]=n[7],e[8]=n[8],this}extractBasis(t,e,n){return t.setFromMatrix3Column(this,0),e.setFromMatrix3Column(this,1),n.setFromMatrix3Column(this,2),this}setFromMatrix4(t){let e=t.elements;return this.set(e[0],e[4],e[8],e[1],e[5],e[9],e[2],e[6],e[10]),this}multiply(t){return this.multiplyMatrices(this,t)}premultiply(t){return this.multiplyMatrices(t,this)}multiplyMatrices(t,e){let n=t.elements,s=e.elements,r=this.elements,o=n[0],a=n[3],l=n[6],c=n[1],h=n[4],d=n[7],u=n[2],f=n[5],m=n[8],v=s[0],p=s[3],g=s[6],M=s[1],I=s[4],w=s[7],C=s[2],T=s[5],_=s[8];return r[0]=o*v+a*M+l*C,r[3]=o*p+a*I+l*T,r[6]=o*g+a*w+l*_,r[1]=c*v+h*M+d*C,r[4]=c*p+h*I+d*T,r[7]=c*g+h*w+d*_,r[2]=u*v+f*M+m*C,r[5]=u*p+f*I+m*T,r[8]=u*g+f*w+m*_,this}multiplyScalar(t){let e=this.elements;return e[0]*=t,e[3]*=t,e[6]*=t,e[1]*=t,e[4]*=t,e[7]*=t,e[2]*=t,e[5]*=t,e[8]*=t,this}determinant(){let t=this.elements,e=t[0],n=t[1],s=t[2],r=t[3],o=t[4],a=t[5],l=t[6],c=t[7],h=t[8];return e*o*h-e*a*c-n*r*h+n*a*l+s*r*c-s*o*l}invert(){let t=this.elements,e=t[0],n=t[1],s=t[2],r=t[3],o=t[4],a=t[5],l=t[6],c=t[7],h=t[8],d=h*o-a*c,u=a*l-h*r,f=c*r-o*l,m=e*d+n*u+s*f;if(m===0)return this.set(0,0,0,0,0,0,0,0,0);let v=1/m;return t[0]=d*v,t[1]=(s*c-h*n)*v,t[2]=(a*n-s*o)*v,t[3]=u*v,t[4]=(h*e-s*l)*v,t[5]=(s*r-a*e)*v,t[6]=f*v,t[7]=(n*l-c*e)*v,t[8]=(o*e-n*r)*v,this}transpose(){let t,e=this.elements;return t=e[1],e[1]=e[3],e[3]=t,t=e[2],e[2]=e[6],e[6]=t,t=e[5],e[5]=e[7],e[7]=t,this}getNormalMatrix(t){return this.setFromMatrix4(t).invert().transpose()}transposeIntoArray(t){let e=this.elements;return t[0]=e[0],t[1]=e[3],t[2]=e[6],t[3]=e[1],t[4]=e[4],t[5]=e[7],t[6]=e[2],t[7]=e[5],t[8]=e[8],this}setUvTransform(t,e,n,s,r,o,a){let l=Math.cos(r),c=Math.sin(r);return this.set(n*l,n*c,-n*(l*o+c*a)+o+t,-s*c,s*l,-s*(-c*o+l*a)+a+e,0,0,1),this}scale(t,e){return ur("Matrix3: .scale() is deprecated. Use .makeScale() instead."),this.premultiply(Fc.makeScale(t,e)),this}rotate(t){return ur("Matrix3: .rotate() is deprecated. Use .makeRotation() instead."),this.premultiply(Fc.makeRotation(-t)),this}translate(t,e){return ur("Matrix3: .translate() is deprecated. Use .makeTranslation() instead."),this.premultiply(Fc.makeTranslation(t,e)),this}makeTranslation(t,e){return t.isVector2?this.set(1,0,t.x,0,1,t.y,0,0,1):this.set(1,0,t,0,1,e,0,0,1),this}makeRotation(t){let e=Math.cos(t),n=Math.sin(t);return this.set(e,-n,0,n,e,0,0,0,1),this}makeScale(t,e){return this.set(t,0,0,0,e,0,0,0,1),this}equals(t){let e=this.elements,n=t.elements;for(let s=0;s<9;s++)if(e[s]!==n[s])return!1;return!0}fromArray(t,e=0){for(let n=0;n<9;n++)this.elements[n]=t[n+e];return this}toArray(t=[],e=0){let n=this.elements;return t[e]=n[0],t[e+1]=n[1],t[e+2]=n[2],t[e+3]=n[3],t[e+4]=n[4],t[e+5]=n[5],t[e+6]=n[6],t[e+7]=n[7],t[e+8]=n[8],t}clone(){return new this.constructor().fromArray(this.elements)}};Gh.prototype.isMatrix3=!0;var Ot=Gh,Fc=new Ot,yp=new Ot().set(.4123908,.3575843,.1804808,.212639,.7151687,.0721923,.0193308,.1191948,.9505322),vp=new Ot().set(3.2409699,-1.5373832,-.4986108,-.9692436,1.8759675,.0415551,.0556301,-.203977,1.0569715);function nx(){let i={enabled:!0,workingColorSpace:fr,spaces:{},convert:function(s,r,o){return this.enabled===!1||r===o||!r||!o||(this.spaces[r].transfer===ne&&(s.r=ri(s.r),s.g=ri(s.g),s.b=ri(s.b)),this.spaces[r].primaries!==this.spaces[o].primaries&&(s.applyMatrix3(this.spaces[r].toXYZ),s.applyMatrix3(this.spaces[o].fromXYZ)),this.spaces[o].transfer===ne&&(s.r=ws(s.r),s.g=ws(s.g),s.b=ws(s.b))),s},workingToColorSpace:function(s,r){return this.convert(s,this.workingColorSpace,r)},colorSpaceToWorking:function(s,r){return this.convert(s,r,this.workingColorSpace)},getPrimaries:function(s){return this.spaces[s].primaries},getTransfer:function(s){return s===hi?pr:this.spaces[s].transfer},getToneMappingMode:function(s){return this.spaces[s].outputColorSpaceConfig.toneMappingMode||"standard"},getLuminanceCoefficients:function(s,r=this.workingColorSpace){return s.fromArray(this.spaces[r].luminanceCoefficients)},define:function(s){Object.assign(this.spaces,s)},_getMatrix:function(s,r,o){return s.copy(this.spaces[o].fromXYZ).multiply(this.spaces[r].toXYZ)},_getDrawingBufferColorSpace:function(s){return this.spaces[s].outputColorSpaceConfig.drawingBufferColorSpace},_getUnpackColorSpace:function(s=this.workingColorSpace){return this.spaces[s].workingColorSpaceConfig.unpackColorSpace}},t=[.64,.33,.3,.6,.15,.06],e=[.2126,.7152,.0722],n=[.3127,.329];return i.define({[fr]:{primaries:t,whitePoint:n,transfer:pr,toXYZ:yp,fromXYZ:vp,luminanceCoefficients:e,workingColorSpaceConfig:{unpackColorSpace:sn},outputColorSpaceConfig:{drawingBufferColorSpace:sn}},[sn]:{primaries:t,whitePoint:n,transfer:ne,toXYZ:yp,fromXYZ:vp,luminanceCoefficients:e,outputColorSpaceConfig:{drawingBufferColorSpace:sn}}}),i}var Zt=nx();function ri(i){return i<.04045?i*.0773993808:Math.pow(i*.9478672986+.0521327014,2.4)}function ws(i){return i<.0031308?i*12.92:1.055*Math.pow(i,.41666)-.055}var us,ua=class{static getDataURL(t,e="image/png"){if(/^data:/i.test(t.src)||typeof HTMLCanvasElement>"u")return t.src;let n;if(t instanceof HTMLCanvasElement)n=t;else{us===void 0&&(us=gr("canvas")),us.width=t.width,us.height=t.height;let s=us.getContext("2d");t instanceof ImageData?s.putImageData(t,0,0):s.drawImage(t,0,0,t.width,t.height),n=us}return n.toDataURL(e)}static sRGBToLinear(t){if(typeof HTMLImageElement<"u"&&t instanceof HTMLImageElement||typeof HTMLCanvasElement<"u"&&t instanceof HTMLCanvasElement||typeof ImageBitmap<"u"&&t instanceof ImageBitmap){let e=gr("canvas");e.width=t.width,e.height=t.height;let n=e.getContext("2d");n.drawImage(t,0,0,t.width,t.height);let s=n.getImageData(0,0,t.width,t.height),r=s.data;for(let o=0;o<r.length;o++)r[o]=ri(r[o]/255)*255;return n.putImageData(s,0,0),e}else if(t.data){let e=t.data.slice(0);for(let n=0;n<e.length;n++)e instanceof Uint8Array||e instanceof Uint8ClampedArray?e[n]=Math.floor(ri(e[n]/255)*255):e[n]=ri(e[n]);return{data:e,width:t.width,height:t.height}}else return Nt("ImageUtils.sRGBToLinear(): Unsupported image type. No color space conversion applied."),t}},ix=0,Es=class{constructor(t=null){this.isTextureSource=!0,Object.defineProperty(this,"id",{value:ix++}),this.uuid=Fr(),this.data=t,this.dataReady=!0,this.version=0}getSize(t){let e=this.data;return typeof HTMLVideoElement<"u"&&e instanceof HTMLVideoElement?t.set(e.videoWidth,e.videoHeight,0):typeof VideoFrame<"u"&&e instanceof VideoFrame?t.set(e.displayWidth,e.displayHeight,0):e!==null?t.set(e.width||0,e.height||0,e.depth||0):t.set(0,0,0),t}set needsUpdate(t){t===!0&&this.version++}toJSON(t){let e=t===void 0||typeof t=="string";if(!e&&t.images[this.uuid]!==void 0)return t.images[this.uuid];let n={uuid:this.uuid,url:""},s=this.data;if(s!==null){let r;if(Array.isArray(s)){r=[];for(let o=0,a=s.length;o<a;o++)s[o].isDataTexture?r.push(Bc(s[o].image)):r.push(Bc(s[o]))}else r=Bc(s);n.url=r}return e||(t.images[this.uuid]=n),n}};function Bc(i){return typeof HTMLImageElement<"u"&&i instanceof HTMLImageElement||typeof HTMLCanvasElement<"u"&&i instanceof HTMLCanvasElement||typeof ImageBitmap<"u"&&i instanceof ImageBitmap?ua.getDataURL(i):i.data?{data:Array.from(i.data),width:i.width,height:i.height,type:i.data.constructor.name}:(Nt("Texture: Unable to serialize Texture."),{})}var sx=0,kc=new V,Qe=class i extends Vn{constructor(t=i.DEFAULT_IMAGE,e=i.DEFAULT_MAPPING,n=Gn,s=Gn,r=De,o=li,a=cn,l=ln,c=i.DEFAULT_ANISOTROPY,h=hi){super(),this.isTexture=!0,Object.defineProperty(this,"id",{value:sx++}),this.uuid=Fr(),this.name="",this.source=new Es(t),this.mipmaps=[],this.mapping=e,this.channel=0,this.wrapS=n,this.wrapT=s,this.magFilter=r,this.minFilter=o,this.anisotropy=c,this.format=a,this.internalFormat=null,this.type=l,this.offset=new te(0,0),this.repeat=new te(1,1),this.center=new te(0,0),this.rotation=0,this.matrixAutoUpdate=!0,this.matrix=new Ot,this.generateMipmaps=!0,this.mipmapsAutoUpdate=!0,this.premultiplyAlpha=!1,this.flipY=!0,this.unpackAlignment=4,this.colorSpace=h,this.userData={},this.updateRanges=[],this.version=0,this.onUpdate=null,this.renderTarget=null,this.isRenderTargetTexture=!1,this.isArrayTexture=!!(t&&t.depth&&t.depth>1),this.pmremVersion=0,this.isPMREMTexture=!1,this.normalized=!1}get width(){return this.source.getSize(kc).x}get height(){return this.source.getSize(kc).y}get depth(){return this.source.getSize(kc).z}get image(){return this.source.data}set image(t){this.source.data=t}updateMatrix(){this.matrix.setUvTransform(this.offset.x,this.offset.y,this.repeat.x,this.repeat.y,this.rotation,this.center.x,this.center.y)}addUpdateRange(t,e){this.updateRanges.push({start:t,count:e})}clearUpdateRanges(){this.updateRanges.length=0}clone(){return new this.constructor().copy(this)}copy(t){return this.name=t.name,this.source=t.source,this.mipmaps=t.mipmaps.slice(0),this.mapping=t.mapping,this.channel=t.channel,this.wrapS=t.wrapS,this.wrapT=t.wrapT,this.magFilter=t.magFilter,this.minFilter=t.minFilter,this.anisotropy=t.anisotropy,this.format=t.format,this.internalFormat=t.internalFormat,this.type=t.type,this.normalized=t.normalized,this.offset.copy(t.offset),this.repeat.copy(t.repeat),this.center.copy(t.center),this.rotation=t.rotation,this.matrixAutoUpdate=t.matrixAutoUpdate,this.matrix.copy(t.matrix),this.generateMipmaps=t.generateMipmaps,this.mipmapsAutoUpdate=t.mipmapsAutoUpdate,this.premultiplyAlpha=t.premultiplyAlpha,this.flipY=t.flipY,this.unpackAlignment=t.unpackAlignment,this.colorSpace=t.colorSpace,this.renderTarget=t.renderTarget,this.isRenderTargetTexture=t.isRenderTargetTexture,this.isPMREMTexture=t.isPMREMTexture,this.isArrayTexture=t.isArrayTexture,this.userData=JSON.parse(JSON.stringify(t.userData)),this.needsUpdate=!0,this}setValues(t){for(let e in t){let n=t[e];if(n===void 0){Nt(`Texture.setValues(): parameter '${e}' has value of undefined.`);continue}let s=this[e];if(s===void 0){Nt(`Texture.setValues(): property '${e}' does not exist.`);continue}s&&n&&s.isVector2&&n.isVector2||s&&n&&s.isVector3&&n.isVector3||s&&n&&s.isMatrix3&&n.isMatrix3?s.copy(n):this[e]=n}}toJSON(t){let e=t===void 0||typeof t=="string";if(!e&&t.textures[this.uuid]!==void 0)return t.textures[this.uuid];let n={metadata:{version:4.7,type:"Texture",generator:"Texture.toJSON"},uuid:this.uuid,name:this.name,image:this.source.toJSON(t).uuid,mapping:this.mapping,channel:this.channel,repeat:[this.repeat.x,this.repeat.y],offset:[this.offset.x,this.offset.y],center:[this.center.x,this.center.y],rotation:this.rotation,wrap:[this.wrapS,this.wrapT],format:this.format,internalFormat:this.internalFormat,type:this.type,normalized:this.normalized,colorSpace:this.colorSpace,minFilter:this.minFilter,magFilter:this.magFilter,anisotropy:this.anisotropy,flipY:this.flipY,generateMipmaps:this.generateMipmaps,mipmapsAutoUpdate:this.mipmapsAutoUpdate,premultiplyAlpha:this.premultiplyAlpha,unpackAlignment:this.unpackAlignment};return Object.keys(this.userData).length>0&&(n.userData=this.userData),e||(t.textures[this.uuid]=n),n}dispose(){this.dispatchEvent({type:"dispose"})}transformUv(t){if(this.mapping!==Mh)return t;if(t.applyMatrix3(this.matrix),t.x<0||t.x>1)switch(this.wrapS){case aa:t.x=t.x-Math.floor(t.x);break;case Gn:t.x=t.x<0?0:1;break;case la:Math.abs(Math.floor(t.x)%2)===1?t.x=Math.ceil(t.x)-t.x:t.x=t.x-Math.floor(t.x);break}if(t.y<0||t.y>1)switch(this.wrapT){case aa:t.y=t.y-Math.floor(t.y);break;case Gn:t.y=t.y<0?0:1;break;case la:Math.abs(Math.floor(t.y)%2)===1?t.y=Math.ceil(t.y)-t.y:t.y=t.y-Math.floor(t.y);break}return this.flipY&&(t.y=1-t.y),t}set needsUpdate(t){t===!0&&(this.version++,this.source.needsUpdate=!0)}set needsPMREMUpdate(t){t===!0&&this.pmremVersion++}};Qe.DEFAULT_IMAGE=null;Qe.DEFAULT_MAPPING=Mh;Qe.DEFAULT_ANISOTROPY=1;var Vh=class Vh{constructor(t=0,e=0,n=0,s=1){this.x=t,this.y=e,this.z=n,this.w=s}get width(){return this.z}set width(t){this.z=t}get height(){return this.w}set height(t){this.w=t}set(t,e,n,s){return this.x=t,this.y=e,this.z=n,this.w=s,this}setScalar(t){return this.x=t,this.y=t,this.z=t,this.w=t,this}setX(t){return this.x=t,this}setY(t){return this.y=t,this}setZ(t){return this.z=t,this}setW(t){return this.w=t,this}setComponent(t,e){switch(t){case 0:this.x=e;break;case 1:this.y=e;break;case 2:this.z=e;break;case 3:this.w=e;break;default:throw new Error("THREE.Vector4: index is out of range: "+t)}return this}getComponent(t){switch(t){case 0:return this.x;case 1:return this.y;case 2:return this.z;case 3:return this.w;default:throw new Error("THREE.Vector4: index is out of range: "+t)}}clone(){return new this.constructor(this.x,this.y,this.z,this.w)}copy(t){return this.x=t.x,this.y=t.y,this.z=t.z,this.w=t.w!==void 0?t.w:1,this}add(t){return this.x+=t.x,this.y+=t.y,this.z+=t.z,this.w+=t.w,this}addScalar(t){return this.x+=t,this.y+=t,this.z+=t,this.w+=t,this}addVectors(t,e){return this.x=t.x+e.x,this.y=t.y+e.y,this.z=t.z+e.z,this.w=t.w+e.w,this}addScaledVector(t,e){return this.x+=t.x*e,this.y+=t.y*e,this.z+=t.z*e,this.w+=t.w*e,this}sub(t){return this.x-=t.x,this.y-=t.y,this.z-=t.z,this.w-=t.w,this}subScalar(t){return this.x-=t,this.y-=t,this.z-=t,this.w-=t,this}subVectors(t,e){return this.x=t.x-e.x,this.y=t.y-e.y,this.z=t.z-e.z,this.w=t.w-e.w,this}multiply(t){return this.x*=t.x,this.y*=t.y,this.z*=t.z,this.w*=t.w,this}multiplyScalar(t){return this.x*=t,this.y*=t,this.z*=t,this.w*=t,this}applyMatrix4(t){let e=this.x,n=this.y,s=this.z,r=this.w,o=t.elements;return this.x=o[0]*e+o[4]*n+o[8]*s+o[12]*r,this.y=o[1]*e+o[5]*n+o[9]*s+o[13]*r,this.z=o[2]*e+o[6]*n+o[10]*s+o[14]*r,this.w=o[3]*e+o[7]*n+o[11]*s+o[15]*r,this}divide(t){return this.x/=t.x,this.y/=t.y,this.z/=t.z,this.w/=t.w,this}divideScalar(t){return this.multiplyScalar(1/t)}setAxisAngleFromQuaternion(t){this.w=2*Math.acos(t.w);let e=Math.sqrt(1-t.w*t.w);return e<1e-4?(this.x=1,this.y=0,this.z=0):(this.x=t.x/e,this.y=t.y/e,this.z=t.z/e),this}setAxisAngleFromRotationMatrix(t){let e,n,s,r,l=t.elements,c=l[0],h=l[4],d=l[8],u=l[1],f=l[5],m=l[9],v=l[2],p=l[6],g=l[10];if(Math.abs(h-u)<.01&&Math.abs(d-v)<.01&&Math.abs(m-p)<.01){if(Math.abs(h+u)<.1&&Math.abs(d+v)<.1&&Math.abs(m+p)<.1&&Math.abs(c+f+g-3)<.1)return this.set(1,0,0,0),this;e=Math.PI;let I=(c+1)/2,w=(f+1)/2,C=(g+1)/2,T=(h+u)/4,_=(d+v)/4,b=(m+p)/4;return I>w&&I>C?I<.01?(n=0,s=.707106781,r=.707106781):(n=Math.sqrt(I),s=T/n,r=_/n):w>C?w<.01?(n=.707106781,s=0,r=.707106781):(s=Math.sqrt(w),n=T/s,r=b/s):C<.01?(n=.707106781,s=.707106781,r=0):(r=Math.sqrt(C),n=_/r,s=b/r),this.set(n,s,r,e),this}let M=Math.sqrt((p-m)*(p-m)+(d-v)*(d-v)+(u-h)*(u-h));return Math.abs(M)<.001&&(M=1),this.x=(p-m)/M,this.y=(d-v)/M,this.z=(u-h)/M,this.w=Math.acos((c+f+g-1)/2),this}setFromMatrixPosition(t){let e=t.elements;return this.x=e[12],this.y=e[13],this.z=e[14],this.w=e[15],this}min(t){return this.x=Math.min(this.x,t.x),this.y=Math.min(this.y,t.y),this.z=Math.min(this.z,t.z),this.w=Math.min(this.w,t.w),this}max(t){return this.x=Math.max(this.x,t.x),this.y=Math.max(this.y,t.y),this.z=Math.max(this.z,t.z),this.w=Math.max(this.w,t.w),this}clamp(t,e){return this.x=Kt(this.x,t.x,e.x),this.y=Kt(this.y,t.y,e.y),this.z=Kt(this.z,t.z,e.z),this.w=Kt(this.w,t.w,e.w),this}clampScalar(t,e){return this.x=Kt(this.x,t,e),this.y=Kt(this.y,t,e),this.z=Kt(this.z,t,e),this.w=Kt(this.w,t,e),this}clampLength(t,e){let n=this.length();return this.divideScalar(n||1).multiplyScalar(Kt(n,t,e))}floor(){return this.x=Math.floor(this.x),this.y=Math.floor(this.y),this.z=Math.floor(this.z),this.w=Math.floor(this.w),this}ceil(){return this.x=Math.ceil(this.x),this.y=Math.ceil(this.y),this.z=Math.ceil(this.z),this.w=Math.ceil(this.w),this}round(){return this.x=Math.round(this.x),this.y=Math.round(this.y),this.z=Math.round(this.z),this.w=Math.round(this.w),this}roundToZero(){return this.x=Math.trunc(this.x),this.y=Math.trunc(this.y),this.z=Math.trunc(this.z),this.w=Math.trunc(this.w),this}negate(){return this.x=-this.x,this.y=-this.y,this.z=-this.z,this.w=-this.w,this}dot(t){return this.x*t.x+this.y*t.y+this.z*t.z+this.w*t.w}lengthSq(){return this.x*this.x+this.y*this.y+this.z*this.z+this.w*this.w}length(){return Math.sqrt(this.x*this.x+this.y*this.y+this.z*this.z+this.w*this.w)}manhattanLength(){return Math.abs(this.x)+Math.abs(this.y)+Math.abs(this.z)+Math.abs(this.w)}normalize(){return this.divideScalar(this.length()||1)}setLength(t){return this.normalize().multiplyScalar(t)}lerp(t,e){return this.x+=(t.x-this.x)*e,this.y+=(t.y-this.y)*e,this.z+=(t.z-this.z)*e,this.w+=(t.w-this.w)*e,this}lerpVectors(t,e,n){return this.x=t.x+(e.x-t.x)*n,this.y=t.y+(e.y-t.y)*n,this.z=t.z+(e.z-t.z)*n,this.w=t.w+(e.w-t.w)*n,this}equals(t){return t.x===this.x&&t.y===this.y&&t.z===this.z&&t.w===this.w}fromArray(t,e=0){return this.x=t[e],this.y=t[e+1],this.z=t[e+2],this.w=t[e+3],this}toArray(t=[],e=0){return t[e]=this.x,t[e+1]=this.y,t[e+2]=this.z,t[e+3]=this.w,t}fromBufferAttribute(t,e){return this.x=t.getX(e),this.y=t.getY(e),this.z=t.getZ(e),this.w=t.getW(e),this}random(){return this.x=Math.random(),this.y=Math.random(),this.z=Math.random(),this.w=Math.random(),this}*[Symbol.iterator](){yield this.x,yield this.y,yield this.z,yield this.w}};Vh.prototype.isVector4=!0;var me=Vh,da=class extends Vn{constructor(t=1,e=1,n={}){super(),n=Object.assign({generateMipmaps:!1,internalFormat:null,minFilter:De,depthBuffer:!0,stencilBuffer:!1,resolveColorBuffer:!0,resolveDepthBuffer:!0,resolveStencilBuffer:!0,storeMultisampledColorBuffer:!0,storeMultisampledDepthBuffer:!0,storeMultisampledStencilBuffer:!0,depthTexture:null,samples:0,count:1,depth:1,multiview:!1,useArrayDepthTexture:!1},n),this.isRenderTarget=!0,this.width=t,this.height=e,this.depth=n.depth,this.scissor=new me(0,0,t,e),this.scissorTest=!1,this.viewport=new me(0,0,t,e),this.textures=[];let s=n.count;for(let r=0;r<s;r++)this.textures[r]=new Qe({width:t,height:e,depth:n.depth}),this.textures[r].isRenderTargetTexture=!0,this.textures[r].renderTarget=this;this._setTextureOptions(n),this.depthBuffer=n.depthBuffer,this.stencilBuffer=n.stencilBuffer,this.resolveColorBuffer=n.resolveColorBuffer,this.resolveDepthBuffer=n.resolveDepthBuffer,this.resolveStencilBuffer=n.resolveStencilBuffer,this.storeMultisampledColorBuffer=n.storeMultisampledColorBuffer,this.storeMultisampledDepthBuffer=n.storeMultisampledDepthBuffer,this.storeMultisampledStencilBuffer=n.storeMultisampledStencilBuffer,this._depthTexture=null,this.depthTexture=n.depthTexture,this.samples=n.samples,this.multiview=n.multiview,this.useArrayDepthTexture=n.useArrayDepthTexture}_setTextureOptions(t={}){let e={minFilter:De,generateMipmaps:!1,flipY:!1,internalFormat:null};t.mapping!==void 0&&(e.mapping=t.mapping),t.wrapS!==void 0&&(e.wrapS=t.wrapS),t.wrapT!==void 0&&(e.wrapT=t.wrapT),t.wrapR!==void 0&&(e.wrapR=t.wrapR),t.magFilter!==void 0&&(e.magFilter=t.magFilter),t.minFilter!==void 0&&(e.minFilter=t.minFilter),t.format!==void 0&&(e.format=t.format),t.type!==void 0&&(e.type=t.type),t.anisotropy!==void 0&&(e.anisotropy=t.anisotropy),t.colorSpace!==void 0&&(e.colorSpace=t.colorSpace),t.flipY!==void 0&&(e.flipY=t.flipY),t.generateMipmaps!==void 0&&(e.generateMipmaps=t.generateMipmaps),t.mipmapsAutoUpdate!==void 0&&(e.mipmapsAutoUpdate=t.mipmapsAutoUpdate),t.internalFormat!==void 0&&(e.internalFormat=t.internalFormat);for(let n=0;n<this.textures.length;n++)this.textures[n].setValues(e)}get texture(){return this.textures[0]}set texture(t){this.textures[0]=t}set depthTexture(t){this._depthTexture!==null&&this._depthTexture.renderTarget===this&&(this._depthTexture.renderTarget=null),t!==null&&t.renderTarget===null&&(t.renderTarget=this),this._depthTexture=t}get depthTexture(){return this._depthTexture}setSize(t,e,n=1){if(this.width!==t||this.height!==e||this.depth!==n){this.width=t,this.height=e,this.depth=n;for(let s=0,r=this.textures.length;s<r;s++)this.textures[s].image.width=t,this.textures[s].image.height=e,this.textures[s].image.depth=n,this.textures[s].isData3DTexture!==!0&&(this.textures[s].isArrayTexture=this.textures[s].image.depth>1);this.dispose()}this.viewport.set(0,0,t,e),this.scissor.set(0,0,t,e)}clone(){return new this.constructor().copy(this)}copy(t){this.width=t.width,this.height=t.height,this.depth=t.depth,this.scissor.copy(t.scissor),this.scissorTest=t.scissorTest,this.viewport.copy(t.viewport),this.textures.length=0;for(let e=0,n=t.textures.length;e<n;e++){this.textures[e]=t.textures[e].clone(),this.textures[e].isRenderTargetTexture=!0,this.textures[e].renderTarget=this;let s=Object.assign({},t.textures[e].image);this.textures[e].source=new Es(s)}if(this.depthBuffer=t.depthBuffer,this.stencilBuffer=t.stencilBuffer,this.resolveColorBuffer=t.resolveColorBuffer,this.resolveDepthBuffer=t.resolveDepthBuffer,this.resolveStencilBuffer=t.resolveStencilBuffer,this.storeMultisampledColorBuffer=t.storeMultisampledColorBuffer,this.storeMultisampledDepthBuffer=t.storeMultisampledDepthBuffer,this.storeMultisampledStencilBuffer=t.storeMultisampledStencilBuffer,t.depthTexture!==null)if(t.depthTexture.renderTarget===t){let e=t.depthTexture.clone();e.renderTarget=null,this.depthTexture=e}else this.depthTexture=t.depthTexture;else this.depthTexture=null;return this.samples=t.samples,this.multiview=t.multiview,this.useArrayDepthTexture=t.useArrayDepthTexture,this}dispose(){this.dispatchEvent({type:"dispose"})}},on=class extends da{constructor(t=1,e=1,n={}){super(t,e,n),this.isWebGLRenderTarget=!0}},_r=class extends Qe{constructor(t=null,e=1,n=1,s=1){super(null),this.isDataArrayTexture=!0,this.image={data:t,width:e,height:n,depth:s},this.magFilter=Ne,this.minFilter=Ne,this.wrapR=Gn,this.generateMipmaps=!1,this.flipY=!1,this.unpackAlignment=1,this.layerUpdates=new Set}copy(t){return super.copy(t),this.wrapR=t.wrapR,this}addLayerUpdate(t){this.layerUpdates.add(t)}clearLayerUpdates(){this.layerUpdates.clear()}};var fa=class extends Qe{constructor(t=null,e=1,n=1,s=1){super(null),this.isData3DTexture=!0,this.image={data:t,width:e,height:n,depth:s},this.magFilter=Ne,this.minFilter=Ne,this.wrapR=Gn,this.generateMipmaps=!1,this.flipY=!1,this.unpackAlignment=1}copy(t){return super.copy(t),this.wrapR=t.wrapR,this}};var Ia=class Ia{constructor(t,e,n,s,r,o,a,l,c,h,d,u,f,m,v,p){this.elements=[1,0,0,0,0,1,0,0,0,0,1,0,0,0,0,1],t!==void 0&&this.set(t,e,n,s,r,o,a,l,c,h,d,u,f,m,v,p)}set(t,e,n,s,r,o,a,l,c,h,d,u,f,m,v,p){let g=this.elements;return g[0]=t,g[4]=e,g[8]=n,g[12]=s,g[1]=r,g[5]=o,g[9]=a,g[13]=l,g[2]=c,g[6]=h,g[10]=d,g[14]=u,g[3]=f,g[7]=m,g[11]=v,g[15]=p,this}identity(){return this.set(1,0,0,0,0,1,0,0,0,0,1,0,0,0,0,1),this}clone(){return new Ia().fromArray(this.elements)}copy(t){let e=this.elements,n=t.elements;return e[0]=n[0],e[1]=n[1],e[2]=n[2],e[3]=n[3],e[4]=n[4],e[5]=n[5],e[6]=n[6],e[7]=n[7],e[8]=n[8],e[9]=n[9],e[10]=n[10],e[11]=n[11],e[12]=n[12],e[13]=n[13],e[14]=n[14],e[15]=n[15],this}copyPosition(t){let e=this.elements,n=t.elements;return e[12]=n[12],e[13]=n[13],e[14]=n[14],this}setFromMatrix3(t){let e=t.elements;return this.set(e[0],e[3],e[6],0,e[1],e[4],e[7],0,e[2],e[5],e[8],0,0,0,0,1),this}extractBasis(t,e,n){return this.determinantAffine()===0?(t.set(1,0,0),e.set(0,1,0),n.set(0,0,1),this):(t.setFromMatrixColumn(this,0),e.setFromMatrixColumn(this,1),n.setFromMatrixColumn(this,2),this)}makeBasis(t,e,n){return this.set(t.x,e.x,n.x,0,t.y,e.y,n.y,0,t.z,e.z,n.z,0,0,0,0,1),this}extractRotation(t){if(t.determinantAffine()===0)return this.identity();let e=this.elements,n=t.elements,s=1/ds.setFromMatrixColumn(t,0).length(),r=1/ds.setFromMatrixColumn(t,1).length(),o=1/ds.setFromMatrixColumn(t,2).length();return e[0]=n[0]*s,e[1]=n[1]*s,e[2]=n[2]*s,e[3]=0,e[4]=n[4]*r,e[5]=n[5]*r,e[6]=n[6]*r,e[7]=0,e[8]=n[8]*o,e[9]=n[9]*o,e[10]=n[10]*o,e[11]=0,e[12]=0,e[13]=0,e[14]=0,e[15]=1,this}makeRotationFromEuler(t){let e=this.elements,n=t.x,s=t.y,r=t.z,o=Math.cos(n),a=Math.sin(n),l=Math.cos(s),c=Math.sin(s),h=Math.cos(r),d=Math.sin(r);if(t.order==="XYZ"){let u=o*h,f=o*d,m=a*h,v=a*d;e[0]=l*h,e[4]=-l*d,e[8]=c,e[1]=f+m*c,e[5]=u-v*c,e[9]=-a*l,e[2]=v-u*c,e[6]=m+f*c,e[10]=o*l}else if(t.order==="YXZ"){let u=l*h,f=l*d,m=c*h,v=c*d;e[0]=u+v*a,e[4]=m*a-f,e[8]=o*c,e[1]=o*d,e[5]=o*h,e[9]=-a,e[2]=f*a-m,e[6]=v+u*a,e[10]=o*l}else if(t.order==="ZXY"){let u=l*h,f=l*d,m=c*h,v=c*d;e[0]=u-v*a,e[4]=-o*d,e[8]=m+f*a,e[1]=f+m*a,e[5]=o*h,e[9]=v-u*a,e[2]=-o*c,e[6]=a,e[10]=o*l}else if(t.order==="ZYX"){let u=o*h,f=o*d,m=a*h,v=a*d;e[0]=l*h,e[4]=m*c-f,e[8]=u*c+v,e[1]=l*d,e[5]=v*c+u,e[9]=f*c-m,e[2]=-c,e[6]=a*l,e[10]=o*l}else if(t.order==="YZX"){let u=o*l,f=o*c,m=a*l,v=a*c;e[0]=l*h,e[4]=v-u*d,e[8]=m*d+f,e[1]=d,e[5]=o*h,e[9]=-a*h,e[2]=-c*h,e[6]=f*d+m,e[10]=u-v*d}else if(t.order==="XZY"){let u=o*l,f=o*c,m=a*l,v=a*c;e[0]=l*h,e[4]=-d,e[8]=c*h,e[1]=u*d+v,e[5]=o*h,e[9]=f*d-m,e[2]=m*d-f,e[6]=a*h,e[10]=v*d+u}return e[3]=0,e[7]=0,e[11]=0,e[12]=0,e[13]=0,e[14]=0,e[15]=1,this}makeRotationFromQuaternion(t){return this.compose(rx,t,ox)}lookAt(t,e,n){let s=this.elements;return en.subVectors(t,e),en.lengthSq()===0&&(en.z=1),en.normalize(),gi.crossVectors(n,en),gi.lengthSq()===0&&(Math.abs(n.z)===1?en.x+=1e-4:en.z+=1e-4,en.normalize(),gi.crossVectors(n,en)),gi.normalize(),Lo.crossVectors(en,gi),s[0]=gi.x,s[4]=Lo.x,s[8]=en.x,s[1]=gi.y,s[5]=Lo.y,s[9]=en.y,s[2]=gi.z,s[6]=Lo.z,s[10]=en.z,this}multiply(t){return this.multiplyMatrices(this,t)}premultiply(t){return this.multiplyMatrices(t,this)}multiplyMatrices(t,e){let n=t.elements,s=e.elements,r=this.elements,o=n[0],a=n[4],l=n[8],c=n[12],h=n[1],d=n[5],u=n[9],f=n[13],m=n[2],v=n[6],p=n[10],g=n[14],M=n[3],I=n[7],w=n[11],C=n[15],T=s[0],_=s[4],b=s[8],k=s[12],N=s[1],U=s[5],z=s[9],Y=s[13],L=s[2],$=s[6],j=s[10],H=s[14],it=s[3],X=s[7],tt=s[11],et=s[15];return r[0]=o*T+a*N+l*L+c*it,r[4]=o*_+a*U+l*$+c*X,r[8]=o*b+a*z+l*j+c*tt,r[12]=o*k+a*Y+l*H+c*et,r[1]=h*T+d*N+u*L+f*it,r[5]=h*_+d*U+u*$+f*X,r[9]=h*b+d*z+u*j+f*tt,r[13]=h*k+d*Y+u*H+f*et,r[2]=m*T+v*N+p*L+g*it,r[6]=m*_+v*U+p*$+g*X,r[10]=m*b+v*z+p*j+g*tt,r[14]=m*k+v*Y+p*H+g*et,r[3]=M*T+I*N+w*L+C*it,r[7]=M*_+I*U+w*$+C*X,r[11]=M*b+I*z+w*j+C*tt,r[15]=M*k+I*Y+w*H+C*et,this}multiplyScalar(t){let e=this.elements;return e[0]*=t,e[4]*=t,e[8]*=t,e[12]*=t,e[1]*=t,e[5]*=t,e[9]*=t,e[13]*=t,e[2]*=t,e[6]*=t,e[10]*=t,e[14]*=t,e[3]*=t,e[7]*=t,e[11]*=t,e[15]*=t,this}determinant(){let t=this.elements,e=t[0],n=t[4],s=t[8],r=t[12],o=t[1],a=t[5],l=t[9],c=t[13],h=t[2],d=t[6],u=t[10],f=t[14],m=t[3],v=t[7],p=t[11],g=t[15],M=l*f-c*u,I=a*f-c*d,w=a*u-l*d,C=o*f-c*h,T=o*u-l*h,_=o*d-a*h;return e*(v*M-p*I+g*w)-n*(m*M-p*C+g*T)+s*(m*I-v*C+g*_)-r*(m*w-v*T+p*_)}determinantAffine(){let t=this.elements,e=t[0],n=t[4],s=t[8],r=t[1],o=t[5],a=t[9],l=t[2],c=t[6],h=t[10];return e*(o*h-a*c)-n*(r*h-a*l)+s*(r*c-o*l)}transpose(){let t=this.elements,e;return e=t[1],t[1]=t[4],t[4]=e,e=t[2],t[2]=t[8],t[8]=e,e=t[6],t[6]=t[9],t[9]=e,e=t[3],t[3]=t[12],t[12]=e,e=t[7],t[7]=t[13],t[13]=e,e=t[11],t[11]=t[14],t[14]=e,this}setPosition(t,e,n){let s=this.elements;return t.isVector3?(s[12]=t.x,s[13]=t.y,s[14]=t.z):(s[12]=t,s[13]=e,s[14]=n),this}invert(){let t=this.elements,e=t[0],n=t[1],s=t[2],r=t[3],o=t[4],a=t[5],l=t[6],c=t[7],h=t[8],d=t[9],u=t[10],f=t[11],m=t[12],v=t[13],p=t[14],g=t[15],M=e*a-n*o,I=e*l-s*o,w=e*c-r*o,C=n*l-s*a,T=n*c-r*a,_=s*c-r*l,b=h*v-d*m,k=h*p-u*m,N=h*g-f*m,U=d*p-u*v,z=d*g-f*v,Y=u*g-f*p,L=M*Y-I*z+w*U+C*N-T*k+_*b;if(L===0)return this.set(0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0);let $=1/L;return t[0]=(a*Y-l*z+c*U)*$,t[1]=(s*z-n*Y-r*U)*$,t[2]=(v*_-p*T+g*C)*$,t[3]=(u*T-d*_-f*C)*$,t[4]=(l*N-o*Y-c*k)*$,t[5]=(e*Y-s*N+r*k)*$,t[6]=(p*w-m*_-g*I)*$,t[7]=(h*_-u*w+f*I)*$,t[8]=(o*z-a*N+c*b)*$,t[9]=(n*N-e*z-r*b)*$,t[10]=(m*T-v*w+g*M)*$,t[11]=(d*w-h*T-f*M)*$,t[12]=(a*k-o*U-l*b)*$,t[13]=(e*U-n*k+s*b)*$,t[14]=(v*I-m*C-p*M)*$,t[15]=(h*C-d*I+u*M)*$,this}scale(t){let e=this.elements,n=t.x,s=t.y,r=t.z;return e[0]*=n,e[4]*=s,e[8]*=r,e[1]*=n,e[5]*=s,e[9]*=r,e[2]*=n,e[6]*=s,e[10]*=r,e[3]*=n,e[7]*=s,e[11]*=r,this}getMaxScaleOnAxis(){let t=this.elements,e=t[0]*t[0]+t[1]*t[1]+t[2]*t[2],n=t[4]*t[4]+t[5]*t[5]+t[6]*t[6],s=t[8]*t[8]+t[9]*t[9]+t[10]*t[10];return Math.sqrt(Math.max(e,n,s))}makeTranslation(t,e,n){return t.isVector3?this.set(1,0,0,t.x,0,1,0,t.y,0,0,1,t.z,0,0,0,1):this.set(1,0,0,t,0,1,0,e,0,0,1,n,0,0,0,1),this}makeRotationX(t){let e=Math.cos(t),n=Math.sin(t);return this.set(1,0,0,0,0,e,-n,0,0,n,e,0,0,0,0,1),this}makeRotationY(t){let e=Math.cos(t),n=Math.sin(t);return this.set(e,0,n,0,0,1,0,0,-n,0,e,0,0,0,0,1),this}makeRotationZ(t){let e=Math.cos(t),n=Math.sin(t);return this.set(e,-n,0,0,n,e,0,0,0,0,1,0,0,0,0,1),this}makeRotationAxis(t,e){let n=Math.cos(e),s=Math.sin(e),r=1-n,o=t.x,a=t.y,l=t.z,c=r*o,h=r*a;return this.set(c*o+n,c*a-s*l,c*l+s*a,0,c*a+s*l,h*a+n,h*l-s*o,0,c*l-s*a,h*l+s*o,r*l*l+n,0,0,0,0,1),this}makeScale(t,e,n){return this.set(t,0,0,0,0,e,0,0,0,0,n,0,0,0,0,1),this}makeShear(t,e,n,s,r,o){return this.set(1,n,r,0,t,1,o,0,e,s,1,0,0,0,0,1),this}compose(t,e,n){let s=this.elements,r=e._x,o=e._y,a=e._z,l=e._w,c=r+r,h=o+o,d=a+a,u=r*c,f=r*h,m=r*d,v=o*h,p=o*d,g=a*d,M=l*c,I=l*h,w=l*d,C=n.x,T=n.y,_=n.z;return s[0]=(1-(v+g))*C,s[1]=(f+w)*C,s[2]=(m-I)*C,s[3]=0,s[4]=(f-w)*T,s[5]=(1-(u+g))*T,s[6]=(p+M)*T,s[7]=0,s[8]=(m+I)*_,s[9]=(p-M)*_,s[10]=(1-(u+v))*_,s[11]=0,s[12]=t.x,s[13]=t.y,s[14]=t.z,s[15]=1,this}decompose(t,e,n){let s=this.elements;t.x=s[12],t.y=s[13],t.z=s[14];let r=this.determinantAffine();if(r===0)return n.set(1,1,1),e.identity(),this;let o=ds.set(s[0],s[1],s[2]).length(),a=ds.set(s[4],s[5],s[6]).length(),l=ds.set(s[8],s[9],s[10]).length();r<0&&(o=-o),Cn.copy(this);let c=1/o,h=1/a,d=1/l;return Cn.elements[0]*=c,Cn.elements[1]*=c,Cn.elements[2]*=c,Cn.elements[4]*=h,Cn.elements[5]*=h,Cn.elements[6]*=h,Cn.elements[8]*=d,Cn.elements[9]*=d,Cn.elements[10]*=d,e.setFromRotationMatrix(Cn),n.x=o,n.y=a,n.z=l,this}makePerspective(t,e,n,s,r,o,a=yn,l=!1){let c=this.elements,h=2*r/(e-t),d=2*r/(n-s),u=(e+t)/(e-t),f=(n+s)/(n-s),m,v;if(l)m=r/(o-r),v=o*r/(o-r);else if(a===yn)m=-(o+r)/(o-r),v=-2*o*r/(o-r);else if(a===mr)m=-o/(o-r),v=-o*r/(o-r);else throw new Error("THREE.Matrix4.makePerspective(): Invalid coordinate system: "+a);return c[0]=h,c[4]=0,c[8]=u,c[12]=0,c[1]=0,c[5]=d,c[9]=f,c[13]=0,c[2]=0,c[6]=0,c[10]=m,c[14]=v,c[3]=0,c[7]=0,c[11]=-1,c[15]=0,this}makeOrthographic(t,e,n,s,r,o,a=yn,l=!1){let c=this.elements,h=2/(e-t),d=2/(n-s),u=-(e+t)/(e-t),f=-(n+s)/(n-s),m,v;if(l)m=1/(o-r),v=o/(o-r);else if(a===yn)m=-2/(o-r),v=-(o+r)/(o-r);else if(a===mr)m=-1/(o-r),v=-r/(o-r);else throw new Error("THREE.Matrix4.makeOrthographic(): Invalid coordinate system: "+a);return c[0]=h,c[4]=0,c[8]=0,c[12]=u,c[1]=0,c[5]=d,c[9]=0,c[13]=f,c[2]=0,c[6]=0,c[10]=m,c[14]=v,c[3]=0,c[7]=0,c[11]=0,c[15]=1,this}equals(t){let e=this.elements,n=t.elements;for(let s=0;s<16;s++)if(e[s]!==n[s])return!1;return!0}fromArray(t,e=0){for(let n=0;n<16;n++)this.elements[n]=t[n+e];return this}toArray(t=[],e=0){let n=this.elements;return t[e]=n[0],t[e+1]=n[1],t[e+2]=n[2],t[e+3]=n[3],t[e+4]=n[4],t[e+5]=n[5],t[e+6]=n[6],t[e+7]=n[7],t[e+8]=n[8],t[e+9]=n[9],t[e+10]=n[10],t[e+11]=n[11],t[e+12]=n[12],t[e+13]=n[13],t[e+14]=n[14],t[e+15]=n[15],t}};Ia.prototype.isMatrix4=!0;var ge=Ia,ds=new V,Cn=new ge,rx=new V(0,0,0),ox=new V(1,1,1),gi=new V,Lo=new V,en=new V,Mp=new ge,Sp=new Hn,bi=class i{constructor(t=0,e=0,n=0,s=i.DEFAULT_ORDER){this.isEuler=!0,this._x=t,this._y=e,this._z=n,this._order=s}get x(){return this._x}set x(t){this._x=t,this._onChangeCallback()}get y(){return this._y}set y(t){this._y=t,this._onChangeCallback()}get z(){return this._z}set z(t){this._z=t,this._onChangeCallback()}get order(){return this._order}set order(t){this._order=t,this._onChangeCallback()}set(t,e,n,s=this._order){return this._x=t,this._y=e,this._z=n,this._order=s,this._onChangeCallback(),this}clone(){return new this.constructor(this._x,this._y,this._z,this._order)}copy(t){return this._x=t._x,this._y=t._y,this._z=t._z,this._order=t._order,this._onChangeCallback(),this}setFromRotationMatrix(t,e=this._order,n=!0){let s=t.elements,r=s[0],o=s[4],a=s[8],l=s[1],c=s[5],h=s[9],d=s[2],u=s[6],f=s[10];switch(e){case"XYZ":this._y=Math.asin(Kt(a,-1,1)),Math.abs(a)<.9999999?(this._x=Math.atan2(-h,f),this._z=Math.atan2(-o,r)):(this._x=Math.atan2(u,c),this._z=0);break;case"YXZ":this._x=Math.asin(-Kt(h,-1,1)),Math.abs(h)<.9999999?(this._y=Math.atan2(a,f),this._z=Math.atan2(l,c)):(this._y=Math.atan2(-d,r),this._z=0);break;case"ZXY":this._x=Math.asin(Kt(u,-1,1)),Math.abs(u)<.9999999?(this._y=Math.atan2(-d,f),this._z=Math.atan2(-o,c)):(this._y=0,this._z=Math.atan2(l,r));break;case"ZYX":this._y=Math.asin(-Kt(d,-1,1)),Math.abs(d)<.9999999?(this._x=Math.atan2(u,f),this._z=Math.atan2(l,r)):(this._x=0,this._z=Math.atan2(-o,c));break;case"YZX":this._z=Math.asin(Kt(l,-1,1)),Math.abs(l)<.9999999?(this._x=Math.atan2(-h,c),this._y=Math.atan2(-d,r)):(this._x=0,this._y=Math.atan2(a,f));break;case"XZY":this._z=Math.asin(-Kt(o,-1,1)),Math.abs(o)<.9999999?(this._x=Math.atan2(u,c),this._y=Math.atan2(a,r)):(this._x=Math.atan2(-h,f),this._y=0);break;default:Nt("Euler: .setFromRotationMatrix() encountered an unknown order: "+e)}return this._order=e,n===!0&&this._onChangeCallback(),this}setFromQuaternion(t,e,n){return Mp.makeRotationFromQuaternion(t),this.setFromRotationMatrix(Mp,e,n)}setFromVector3(t,e=this._order){return this.set(t.x,t.y,t.z,e)}reorder(t){return Sp.setFromEuler(this),this.setFromQuaternion(Sp,t)}equals(t){return t._x===this._x&&t._y===this._y&&t._z===this._z&&t._order===this._order}fromArray(t){return this._x=t[0],this._y=t[1],this._z=t[2],t[3]!==void 0&&(this._order=t[3]),this._onChangeCallback(),this}toArray(t=[],e=0){return t[e]=this._x,t[e+1]=this._y,t[e+2]=this._z,t[e+3]=this._order,t}_onChange(t){return this._onChangeCallback=t,this}_onChangeCallback(){}*[Symbol.iterator](){yield this._x,yield this._y,yield this._z,yield this._order}};bi.DEFAULT_ORDER="XYZ";var xr=class{constructor(){this.mask=1}set(t){this.mask=(1<<t|0)>>>0}enable(t){this.mask|=1<<t|0}enableAll(){this.mask=-1}toggle(t){this.mask^=1<<t|0}disable(t){this.mask&=~(1<<t|0)}disableAll(){this.mask=0}test(t){return(this.mask&t.mask)!==0}isEnabled(t){return(this.mask&(1<<t|0))!==0}},ax=0,bp=new V,fs=new Hn,ti=new ge,No=new V,ar=new V,lx=new V,cx=new Hn,wp=new V(1,0,0),Ap=new V(0,1,0),Ep=new V(0,0,1),Tp={type:"added"},hx={type:"removed"},ps={type:"childadded",child:null},zc={type:"childremoved",child:null},Mn=class i extends Vn{constructor(){super(),this.isObject3D=!0,Object.defineProperty(this,"id",{value:ax++}),this.uuid=Fr(),this.name="",this.type="Object3D",this.parent=null,this.children=[],this.up=i.DEFAULT_UP.clone();let t=new V,e=new bi,n=new Hn,s=new V(1,1,1);function r(){n.setFromEuler(e,!1)}function o(){e.setFromQuaternion(n,void 0,!1)}e._onChange(r),n._onChange(o),Object.defineProperties(this,{position:{configurable:!0,enumerable:!0,value:t},rotation:{configurable:!0,enumerable:!0,value:e},quaternion:{configurable:!0,enumerable:!0,value:n},scale:{configurable:!0,enumerable:!0,value:s},modelViewMatrix:{value:new ge},normalMatrix:{value:new Ot}}),this.matrix=new ge,this.matrixWorld=new ge,this.matrixAutoUpdate=i.DEFAULT_MATRIX_AUTO_UPDATE,this.matrixWorldAutoUpdate=i.DEFAULT_MATRIX_WORLD_AUTO_UPDATE,this.matrixWorldNeedsUpdate=!1,this.layers=new xr,this.visible=!0,this.castShadow=!1,this.receiveShadow=!1,this.frustumCulled=!0,this.renderOrder=0,this.animations=[],this.customDepthMaterial=void 0,this.customDistanceMaterial=void 0,this.static=!1,this.userData={},this.pivot=null}onBeforeShadow(){}onAfterShadow(){}onBeforeRender(){}onAfterRender(){}applyMatrix4(t){this.matrixAutoUpdate&&this.updateMatrix(),this.matrix.premultiply(t),this.matrix.decompose(this.position,this.quaternion,this.scale),this.pivot!==null&&this.position.copy(this.pivot).applyMatrix4(this.matrix).sub(this.pivot)}applyQuaternion(t){return this.quaternion.premultiply(t),this}setRotationFromAxisAngle(t,e){this.quaternion.setFromAxisAngle(t,e)}setRotationFromEuler(t){this.quaternion.setFromEuler(t,!0)}setRotationFromMatrix(t){this.quaternion.setFromRotationMatrix(t)}setRotationFromQuaternion(t){this.quaternion.copy(t)}rotateOnAxis(t,e){return fs.setFromAxisAngle(t,e),this.quaternion.multiply(fs),this}rotateOnWorldAxis(t,e){return fs.setFromAxisAngle(t,e),this.quaternion.premultiply(fs),this}rotateX(t){return this.rotateOnAxis(wp,t)}rotateY(t){return this.rotateOnAxis(Ap,t)}rotateZ(t){return this.rotateOnAxis(Ep,t)}translateOnAxis(t,e){return bp.copy(t).applyQuaternion(this.quaternion),this.position.add(bp.multiplyScalar(e)),this}translateX(t){return this.translateOnAxis(wp,t)}translateY(t){return this.translateOnAxis(Ap,t)}translateZ(t){return this.translateOnAxis(Ep,t)}localToWorld(t){return this.updateWorldMatrix(!0,!1),t.applyMatrix4(this.matrixWorld)}worldToLocal(t){return this.updateWorldMatrix(!0,!1),t.applyMatrix4(ti.copy(this.matrixWorld).invert())}lookAt(t,e,n){t.isVector3?No.copy(t):No.set(t,e,n);let s=this.parent;this.updateWorldMatrix(!0,!1),ar.setFromMatrixPosition(this.matrixWorld),this.isCamera||this.isLight?ti.lookAt(ar,No,this.up):ti.lookAt(No,ar,this.up),this.quaternion.setFromRotationMatrix(ti),s&&(ti.extractRotation(s.matrixWorld),fs.setFromRotationMatrix(ti),this.quaternion.premultiply(fs.invert()))}add(t){if(arguments.length>1){for(let e=0;e<arguments.length;e++)this.add(arguments[e]);return this}return t===this?(Ut("Object3D.add: object can't be added as a child of itself.",t),this):(t&&t.isObject3D?(t.removeFromParent(),t.parent=this,this.children.push(t),t.dispatchEvent(Tp),ps.child=t,this.dispatchEvent(ps),ps.child=null):Ut("Object3D.add: object not an instance of THREE.Object3D.",t),this)}remove(t){if(arguments.length>1){for(let n=0;n<arguments.length;n++)this.remove(arguments[n]);return this}let e=this.children.indexOf(t);return e!==-1&&(t.parent=null,this.children.splice(e,1),t.dispatchEvent(hx),zc.child=t,this.dispatchEvent(zc),zc.child=null),this}removeFromParent(){let t=this.parent;return t!==null&&t.remove(this),this}clear(){return this.remove(...this.children)}attach(t){return this.updateWorldMatrix(!0,!1),ti.copy(this.matrixWorld).invert(),t.parent!==null&&(t.parent.updateWorldMatrix(!0,!1),ti.multiply(t.parent.matrixWorld)),t.applyMatrix4(ti),t.removeFromParent(),t.parent=this,this.children.push(t),t.updateWorldMatrix(!1,!0),t.dispatchEvent(Tp),ps.child=t,this.dispatchEvent(ps),ps.child=null,this}getObjectById(t){return this.getObjectByProperty("id",t)}getObjectByName(t){return this.getObjectByProperty("name",t)}getObjectByProperty(t,e){if(this[t]===e)return this;for(let n=0,s=this.children.length;n<s;n++){let o=this.children[n].getObjectByProperty(t,e);if(o!==void 0)return o}}getObjectsByProperty(t,e,n=[]){this[t]===e&&n.push(this);let s=this.children;for(let r=0,o=s.length;r<o;r++)s[r].getObjectsByProperty(t,e,n);return n}getWorldPosition(t){return this.updateWorldMatrix(!0,!1),t.setFromMatrixPosition(this.matrixWorld)}getWorldQuaternion(t){return this.updateWorldMatrix(!0,!1),this.matrixWorld.decompose(ar,t,lx),t}getWorldScale(t){return this.updateWorldMatrix(!0,!1),this.matrixWorld.decompose(ar,cx,t),t}getWorldDirection(t){this.updateWorldMatrix(!0,!1);let e=this.matrixWorld.elements;return t.set(e[8],e[9],e[10]).normalize()}raycast(){}intersectsFrustum(){return!0}traverse(t){t(this);let e=this.children;for(let n=0,s=e.length;n<s;n++)e[n].traverse(t)}traverseVisible(t){if(this.visible===!1)return;t(this);let e=this.children;for(let n=0,s=e.length;n<s;n++)e[n].traverseVisible(t)}traverseAncestors(t){let e=this.parent;e!==null&&(t(e),e.traverseAncestors(t))}updateMatrix(){this.matrix.compose(this.position,this.quaternion,this.scale);let t=this.pivot;if(t!==null){let e=t.x,n=t.y,s=t.z,r=this.matrix.elements;r[12]+=e-r[0]*e-r[4]*n-r[8]*s,r[13]+=n-r[1]*e-r[5]*n-r[9]*s,r[14]+=s-r[2]*e-r[6]*n-r[10]*s}this.matrixWorldNeedsUpdate=!0}updateMatrixWorld(t){this.matrixAutoUpdate&&this.updateMatrix(),(this.matrixWorldNeedsUpdate||t)&&(this.matrixWorldAutoUpdate===!0&&(this.parent===null?this.matrixWorld.copy(this.matrix):this.matrixWorld.multiplyMatrices(this.parent.matrixWorld,this.matrix)),this.matrixWorldNeedsUpdate=!1,t=!0);let e=this.children;for(let n=0,s=e.length;n<s;n++)e[n].updateMatrixWorld(t)}updateWorldMatrix(t,e,n=!1){let s=this.parent;if(t===!0&&s!==null&&s.updateWorldMatrix(!0,!1),this.matrixAutoUpdate&&this.updateMatrix(),(this.matrixWorldNeedsUpdate||n)&&(this.matrixWorldAutoUpdate===!0&&(this.parent===null?this.matrixWorld.copy(this.matrix):this.matrixWorld.multiplyMatrices(this.parent.matrixWorld,this.matrix)),this.matrixWorldNeedsUpdate=!1,n=!0),e===!0){let r=this.children;for(let o=0,a=r.length;o<a;o++)r[o].updateWorldMatrix(!1,!0,n)}}toJSON(t){let e=t===void 0||typeof t=="string",n={};e&&(t={geometries:{},materials:{},textures:{},images:{},shapes:{},skeletons:{},animations:{},nodes:{}},n.metadata={version:4.7,type:"Object",generator:"Object3D.toJSON"});let s={};s.uuid=this.uuid,s.type=this.type,s.name=this.name,s.castShadow=this.castShadow,s.receiveShadow=this.receiveShadow,s.visible=this.visible,s.frustumCulled=this.frustumCulled,s.renderOrder=this.renderOrder,s.static=this.static,s.matrixAutoUpdate=this.matrixAutoUpdate,Object.keys(this.userData).length>0&&(s.userData=this.userData),s.layers=this.layers.mask,s.matrix=this.matrix.toArray(),s.up=this.up.toArray(),this.pivot!==null&&(s.pivot=this.pivot.toArray()),this.morphTargetDictionary!==void 0&&(s.morphTargetDictionary=Object.assign({},this.morphTargetDictionary)),this.morphTargetInfluences!==void 0&&(s.morphTargetInfluences=this.morphTargetInfluences.slice()),this.isInstancedMesh&&(s.type="InstancedMesh",s.count=this.count,s.instanceMatrix=this.instanceMatrix.toJSON(),this.instanceColor!==null&&(s.instanceColor=this.instanceColor.toJSON())),this.isBatchedMesh&&(s.type="BatchedMesh",s.perObjectFrustumCulled=this.perObjectFrustumCulled,s.sortObjects=this.sortObjects,s.drawRanges=this._drawRanges,s.reservedRanges=this._reservedRanges,s.geometryInfo=this._geometryInfo.map(a=>({...a,boundingBox:a.boundingBox?a.boundingBox.toJSON():void 0,boundingSphere:a.boundingSphere?a.boundingSphere.toJSON():void 0})),s.instanceInfo=this._instanceInfo.map(a=>({...a})),s.availableInstanceIds=this._availableInstanceIds.slice(),s.availableGeometryIds=this._availableGeometryIds.slice(),s.nextIndexStart=this._nextIndexStart,s.nextVertexStart=this._nextVertexStart,s.geometryCount=this._geometryCount,s.maxInstanceCount=this._maxInstanceCount,s.maxVertexCount=this._maxVertexCount,s.maxIndexCount=this._maxIndexCount,s.geometryInitialized=this._geometryInitialized,s.matricesTexture=this._matricesTexture.toJSON(t),s.indirectTexture=this._indirectTexture.toJSON(t),this._colorsTexture!==null&&(s.colorsTexture=this._colorsTexture.toJSON(t)),this.boundingSphere!==null&&(s.boundingSphere=this.boundingSphere.toJSON()),this.boundingBox!==null&&(s.boundingBox=this.boundingBox.toJSON()));function r(a,l){return a[l.uuid]===void 0&&(a[l.uuid]=l.toJSON(t)),l.uuid}if(this.isScene)this.background&&(this.background.isColor?s.background=this.background.toJSON():this.background.isTexture&&(s.background=this.background.toJSON(t).uuid)),this.environment&&this.environment.isTexture&&this.environment.isRenderTargetTexture!==!0&&(s.environment=this.environment.toJSON(t).uuid);else if(this.isMesh||this.isLine||this.isPoints){s.geometry=r(t.geometries,this.geometry);let a=this.geometry.parameters;if(a!==void 0&&a.shapes!==void 0){let l=a.shapes;if(Array.isArray(l))for(let c=0,h=l.length;c<h;c++){let d=l[c];r(t.shapes,d)}else r(t.shapes,l)}}if(this.isSkinnedMesh&&(s.bindMode=this.bindMode,s.bindMatrix=this.bindMatrix.toArray(),this.skeleton!==void 0&&(r(t.skeletons,this.skeleton),s.skeleton=this.skeleton.uuid)),this.material!==void 0)if(Array.isArray(this.material)){let a=[];for(let l=0,c=this.material.length;l<c;l++)a.push(r(t.materials,this.material[l]));s.material=a}else s.material=r(t.materials,this.material);if(this.children.length>0){s.children=[];for(let a=0;a<this.children.length;a++)s.children.push(this.children[a].toJSON(t).object)}if(this.animations.length>0){s.animations=[];for(let a=0;a<this.animations.length;a++){let l=this.animations[a];s.animations.push(r(t.animations,l))}}if(e){let a=o(t.geometries),l=o(t.materials),c=o(t.textures),h=o(t.images),d=o(t.shapes),u=o(t.skeletons),f=o(t.animations),m=o(t.nodes);a.length>0&&(n.geometries=a),l.length>0&&(n.materials=l),c.length>0&&(n.textures=c),h.length>0&&(n.images=h),d.length>0&&(n.shapes=d),u.length>0&&(n.skeletons=u),f.length>0&&(n.animations=f),m.length>0&&(n.nodes=m)}return n.object=s,n;function o(a){let l=[];for(let c in a){let h=a[c];delete h.metadata,l.push(h)}return l}}clone(t){return new this.constructor().copy(this,t)}copy(t,e=!0){if(this.name=t.name,this.up.copy(t.up),this.position.copy(t.position),this.rotation.order=t.rotation.order,this.quaternion.copy(t.quaternion),this.scale.copy(t.scale),this.pivot=t.pivot!==null?t.pivot.clone():null,this.matrix.copy(t.matrix),this.matrixWorld.copy(t.matrixWorld),this.matrixAutoUpdate=t.matrixAutoUpdate,this.matrixWorldAutoUpdate=t.matrixWorldAutoUpdate,this.matrixWorldNeedsUpdate=t.matrixWorldNeedsUpdate,this.layers.mask=t.layers.mask,this.visible=t.visible,this.castShadow=t.castShadow,this.receiveShadow=t.receiveShadow,this.frustumCulled=t.frustumCulled,this.renderOrder=t.renderOrder,this.static=t.static,this.animations=t.animations.slice(),this.userData=JSON.parse(JSON.stringify(t.userData)),e===!0)for(let n=0;n<t.children.length;n++){let s=t.children[n];this.add(s.clone())}return this}dispose(){this.dispatchEvent({type:"dispose"})}};Mn.DEFAULT_UP=new V(0,1,0);Mn.DEFAULT_MATRIX_AUTO_UPDATE=!0;Mn.DEFAULT_MATRIX_WORLD_AUTO_UPDATE=!0;var Vi=class extends Mn{constructor(){super(),this.isGroup=!0,this.type="Group"}},ux={type:"move"},Ts=class{constructor(){this._targetRay=null,this._grip=null,this._hand=null}getHandSpace(){return this._hand===null&&(this._hand=new Vi,this._hand.matrixAutoUpdate=!1,this._hand.visible=!1,this._hand.joints={},this._hand.inputState={pinching:!1}),this._hand}getTargetRaySpace(){return this._targetRay===null&&(this._targetRay=new Vi,this._targetRay.matrixAutoUpdate=!1,this._targetRay.visible=!1,this._targetRay.hasLinearVelocity=!1,this._targetRay.linearVelocity=new V,this._targetRay.hasAngularVelocity=!1,this._targetRay.angularVelocity=new V),this._targetRay}getGripSpace(){return this._grip===null&&(this._grip=new Vi,this._grip.matrixAutoUpdate=!1,this._grip.visible=!1,this._grip.hasLinearVelocity=!1,this._grip.linearVelocity=new V,this._grip.hasAngularVelocity=!1,this._grip.angularVelocity=new V,this._grip.eventsEnabled=!1),this._grip}dispatchEvent(t){return this._targetRay!==null&&this._targetRay.dispatchEvent(t),this._grip!==null&&this._grip.dispatchEvent(t),this._hand!==null&&this._hand.dispatchEvent(t),this}connect(t){if(t&&t.hand){let e=this._hand;if(e)for(let n of t.hand.values())this._getHandJoint(e,n)}return this.dispatchEvent({type:"connected",data:t}),this}disconnect(t){return this.dispatchEvent({type:"disconnected",data:t}),this._targetRay!==null&&(this._targetRay.visible=!1),this._grip!==null&&(this._grip.visible=!1),this._hand!==null&&(this._hand.visible=!1),this}update(t,e,n){let s=null,r=null,o=null,a=this._targetRay,l=this._grip,c=this._hand;if(t&&e.session.visibilityState!=="visible-blurred"){if(c&&t.hand){o=!0;for(let v of t.hand.values()){let p=e.getJointPose(v,n),g=this._getHandJoint(c,v);p!==null&&(g.matrix.fromArray(p.transform.matrix),g.matrix.decompose(g.position,g.quaternion,g.scale),g.matrixWorldNeedsUpdate=!0,g.jointRadius=p.radius),g.visible=p!==null}let h=c.joints["index-finger-tip"],d=c.joints["thumb-tip"],u=h.position.distanceTo(d.position),f=.02,m=.005;c.inputState.pinching&&u>f+m?(c.inputState.pinching=!1,this.dispatchEvent({type:"pinchend",handedness:t.handedness,target:this})):!c.inputState.pinching&&u<=f-m&&(c.inputState.pinching=!0,this.dispatchEvent({type:"pinchstart",handedness:t.handedness,target:this}))}else l!==null&&t.gripSpace&&(r=e.getPose(t.gripSpace,n),r!==null&&(l.matrix.fromArray(r.transform.matrix),l.matrix.decompose(l.position,l.quaternion,l.scale),l.matrixWorldNeedsUpdate=!0,r.linearVelocity?(l.hasLinearVelocity=!0,l.linearVelocity.copy(r.linearVelocity)):l.hasLinearVelocity=!1,r.angularVelocity?(l.hasAngularVelocity=!0,l.angularVelocity.copy(r.angularVelocity)):l.hasAngularVelocity=!1,l.eventsEnabled&&l.dispatchEvent({type:"gripUpdated",data:t,target:this})));a!==null&&(s=e.getPose(t.targetRaySpace,n),s===null&&r!==null&&(s=r),s!==null&&(a.matrix.fromArray(s.transform.matrix),a.matrix.decompose(a.position,a.quaternion,a.scale),a.matrixWorldNeedsUpdate=!0,s.linearVelocity?(a.hasLinearVelocity=!0,a.linearVelocity.copy(s.linearVelocity)):a.hasLinearVelocity=!1,s.angularVelocity?(a.hasAngularVelocity=!0,a.angularVelocity.copy(s.angularVelocity)):a.hasAngularVelocity=!1,this.dispatchEvent(ux)))}return a!==null&&(a.visible=s!==null),l!==null&&(l.visible=r!==null),c!==null&&(c.visible=o!==null),this}_getHandJoint(t,e){if(t.joints[e.jointName]===void 0){let n=new Vi;n.matrixAutoUpdate=!1,n.visible=!1,t.joints[e.jointName]=n,t.add(n)}return t.joints[e.jointName]}},Sm={aliceblue:15792383,antiquewhite:16444375,aqua:65535,aquamarine:8388564,azure:15794175,beige:16119260,bisque:16770244,black:0,blanchedalmond:16772045,blue:255,blueviolet:9055202,brown:10824234,burlywood:14596231,cadetblue:6266528,chartreuse:8388352,chocolate:13789470,coral:16744272,cornflowerblue:6591981,cornsilk:16775388,crimson:14423100,cyan:65535,darkblue:139,darkcyan:35723,darkgoldenrod:12092939,darkgray:11119017,darkgreen:25600,darkgrey:11119017,darkkhaki:12433259,darkmagenta:9109643,darkolivegreen:5597999,darkorange:16747520,darkorchid:10040012,darkred:9109504,darksalmon:15308410,darkseagreen:9419919,darkslateblue:4734347,darkslategray:3100495,darkslategrey:3100495,darkturquoise:52945,darkviolet:9699539,deeppink:16716947,deepskyblue:49151,dimgray:6908265,dimgrey:6908265,dodgerblue:2003199,firebrick:11674146,floralwhite:16775920,forestgreen:2263842,fuchsia:16711935,gainsboro:14474460,ghostwhite:16316671,gold:16766720,goldenrod:14329120,gray:8421504,green:32768,greenyellow:11403055,grey:8421504,honeydew:15794160,hotpink:16738740,indianred:13458524,indigo:4915330,ivory:16777200,khaki:15787660,lavender:15132410,lavenderblush:16773365,lawngreen:8190976,lemonchiffon:16775885,lightblue:11393254,lightcoral:15761536,lightcyan:14745599,lightgoldenrodyellow:16448210,lightgray:13882323,lightgreen:9498256,lightgrey:13882323,lightpink:16758465,lightsalmon:16752762,lightseagreen:2142890,lightskyblue:8900346,lightslategray:7833753,lightslategrey:7833753,lightsteelblue:11584734,lightyellow:16777184,lime:65280,limegreen:3329330,linen:16445670,magenta:16711935,maroon:8388608,mediumaquamarine:6737322,mediumblue:205,mediumorchid:12211667,mediumpurple:9662683,mediumseagreen:3978097,mediumslateblue:8087790,mediumspringgreen:64154,mediumturquoise:4772300,mediumvioletred:13047173,midnightblue:1644912,mintcream:16121850,mistyrose:16770273,moccasin:16770229,navajowhite:16768685,navy:128,oldlace:16643558,olive:8421376,olivedrab:7048739,orange:16753920,orangered:16729344,orchid:14315734,palegoldenrod:15657130,palegreen:10025880,paleturquoise:11529966,palevioletred:14381203,papayawhip:16773077,peachpuff:16767673,peru:13468991,pink:16761035,plum:14524637,powderblue:11591910,purple:8388736,rebeccapurple:6697881,red:16711680,rosybrown:12357519,royalblue:4286945,saddlebrown:9127187,salmon:16416882,sandybrown:16032864,seagreen:3050327,seashell:16774638,sienna:10506797,silver:12632256,skyblue:8900331,slateblue:6970061,slategray:7372944,slategrey:7372944,snow:16775930,springgreen:65407,steelblue:4620980,tan:13808780,teal:32896,thistle:14204888,tomato:16737095,turquoise:4251856,violet:15631086,wheat:16113331,white:16777215,whitesmoke:16119285,yellow:16776960,yellowgreen:10145074},_i={h:0,s:0,l:0},Do={h:0,s:0,l:0};function Gc(i,t,e){return e<0&&(e+=1),e>1&&(e-=1),e<1/6?i+(t-i)*6*e:e<1/2?t:e<2/3?i+(t-i)*6*(2/3-e):i}var Qt=class{constructor(t,e,n){return this.isColor=!0,this.r=1,this.g=1,this.b=1,this.set(t,e,n)}set(t,e,n){if(e===void 0&&n===void 0){let s=t;s&&s.isColor?this.copy(s):typeof s=="number"?this.setHex(s):typeof s=="string"&&this.setStyle(s)}else this.setRGB(t,e,n);return this}setScalar(t){return this.r=t,this.g=t,this.b=t,this}setHex(t,e=sn){return t=Math.floor(t),this.r=(t>>16&255)/255,this.g=(t>>8&255)/255,this.b=(t&255)/255,Zt.colorSpaceToWorking(this,e),this}setRGB(t,e,n,s=Zt.workingColorSpace){return this.r=t,this.g=e,this.b=n,Zt.colorSpaceToWorking(this,s),this}setHSL(t,e,n,s=Zt.workingColorSpace){if(t=Q_(t,1),e=Kt(e,0,1),n=Kt(n,0,1),e===0)this.r=this.g=this.b=n;else{let r=n<=.5?n*(1+e):n+e-n*e,o=2*n-r;this.r=Gc(o,r,t+1/3),this.g=Gc(o,r,t),this.b=Gc(o,r,t-1/3)}return Zt.colorSpaceToWorking(this,s),this}setStyle(t,e=sn){function n(r){r!==void 0&&parseFloat(r)<1&&Nt("Color: Alpha component of "+t+" will be ignored.")}let s;if(s=/^(\w+)\(([^\)]*)\)/.exec(t)){let r,o=s[1],a=s[2];switch(o){case"rgb":case"rgba":if(r=/^\s*(\d+)\s*,\s*(\d+)\s*,\s*(\d+)\s*(?:,\s*(\d+(?:\.\d+)?|\.\d+)\s*)?$/.exec(a))return n(r[4]),this.setRGB(Math.min(255,parseInt(r[1],10))/255,Math.min(255,parseInt(r[2],10))/255,Math.min(255,parseInt(r[3],10))/255,e);if(r=/^\s*(\d+(?:\.\d+)?|\.\d+)\%\s*,\s*(\d+(?:\.\d+)?|\.\d+)\%\s*,\s*(\d+(?:\.\d+)?|\.\d+)\%\s*(?:,\s*(\d+(?:\.\d+)?|\.\d+)\s*)?$/.exec(a))return n(r[4]),this.setRGB(Math.min(100,parseFloat(r[1]))/100,Math.min(100,parseFloat(r[2]))/100,Math.min(100,parseFloat(r[3]))/100,e);break;case"hsl":case"hsla":if(r=/^\s*([+-]?(?:\d+(?:\.\d+)?|\.\d+))\s*,\s*(\d+(?:\.\d+)?|\.\d+)\%\s*,\s*(\d+(?:\.\d+)?|\.\d+)\%\s*(?:,\s*(\d+(?:\.\d+)?|\.\d+)\s*)?$/.exec(a))return n(r[4]),this.setHSL(parseFloat(r[1])/360,parseFloat(r[2])/100,parseFloat(r[3])/100,e);break;default:Nt("Color: Unknown color model "+t)}}else if(s=/^\#([A-Fa-f\d]+)$/.exec(t)){let r=s[1],o=r.length;if(o===3)return this.setRGB(parseInt(r.charAt(0),16)/15,parseInt(r.charAt(1),16)/15,parseInt(r.charAt(2),16)/15,e);if(o===6)return this.setHex(parseInt(r,16),e);Nt("Color: Invalid hex color "+t)}else if(t&&t.length>0)return this.setColorName(t,e);return this}setColorName(t,e=sn){let n=Sm[t.toLowerCase()];return n!==void 0?this.setHex(n,e):Nt("Color: Unknown color "+t),this}clone(){return new this.constructor(this.r,this.g,this.b)}copy(t){return this.r=t.r,this.g=t.g,this.b=t.b,this}copySRGBToLinear(t){return this.r=ri(t.r),this.g=ri(t.g),this.b=ri(t.b),this}copyLinearToSRGB(t){return this.r=ws(t.r),this.g=ws(t.g),this.b=ws(t.b),this}convertSRGBToLinear(){return this.copySRGBToLinear(this),this}convertLinearToSRGB(){return this.copyLinearToSRGB(this),this}getHex(t=sn){return Zt.workingToColorSpace(He.copy(this),t),Math.round(Kt(He.r*255,0,255))*65536+Math.round(Kt(He.g*255,0,255))*256+Math.round(Kt(He.b*255,0,255))}getHexString(t=sn){return("000000"+this.getHex(t).toString(16)).slice(-6)}getHSL(t,e=Zt.workingColorSpace){Zt.workingToColorSpace(He.copy(this),e);let n=He.r,s=He.g,r=He.b,o=Math.max(n,s,r),a=Math.min(n,s,r),l,c,h=(a+o)/2;if(a===o)l=0,c=0;else{let d=o-a;switch(c=h<=.5?d/(o+a):d/(2-o-a),o){case n:l=(s-r)/d+(s<r?6:0);break;case s:l=(r-n)/d+2;break;case r:l=(n-s)/d+4;break}l/=6}return t.h=l,t.s=c,t.l=h,t}getRGB(t,e=Zt.workingColorSpace){return Zt.workingToColorSpace(He.copy(this),e),t.r=He.r,t.g=He.g,t.b=He.b,t}getStyle(t=sn){Zt.workingToColorSpace(He.copy(this),t);let e=He.r,n=He.g,s=He.b;return t!==sn?`color(${t} ${e.toFixed(3)} ${n.toFixed(3)} ${s.toFixed(3)})`:`rgb(${Math.round(e*255)},${Math.round(n*255)},${Math.round(s*255)})`}offsetHSL(t,e,n){return this.getHSL(_i),this.setHSL(_i.h+t,_i.s+e,_i.l+n)}add(t){return this.r+=t.r,this.g+=t.g,this.b+=t.b,this}addColors(t,e){return this.r=t.r+e.r,this.g=t.g+e.g,this.b=t.b+e.b,this}addScalar(t){return this.r+=t,this.g+=t,this.b+=t,this}sub(t){return this.r=Math.max(0,this.r-t.r),this.g=Math.max(0,this.g-t.g),this.b=Math.max(0,this.b-t.b),this}multiply(t){return this.r*=t.r,this.g*=t.g,this.b*=t.b,this}multiplyScalar(t){return this.r*=t,this.g*=t,this.b*=t,this}lerp(t,e){return this.r+=(t.r-this.r)*e,this.g+=(t.g-this.g)*e,this.b+=(t.b-this.b)*e,this}lerpColors(t,e,n){return this.r=t.r+(e.r-t.r)*n,this.g=t.g+(e.g-t.g)*n,this.b=t.b+(e.b-t.b)*n,this}lerpHSL(t,e){this.getHSL(_i),t.getHSL(Do);let n=Uc(_i.h,Do.h,e),s=Uc(_i.s,Do.s,e),r=Uc(_i.l,Do.l,e);return this.setHSL(n,s,r),this}setFromVector3(t){return this.r=t.x,this.g=t.y,this.b=t.z,this}applyMatrix3(t){let e=this.r,n=this.g,s=this.b,r=t.elements;return this.r=r[0]*e+r[3]*n+r[6]*s,this.g=r[1]*e+r[4]*n+r[7]*s,this.b=r[2]*e+r[5]*n+r[8]*s,this}equals(t){return t.r===this.r&&t.g===this.g&&t.b===this.b}fromArray(t,e=0){return this.r=t[e],this.g=t[e+1],this.b=t[e+2],this}toArray(t=[],e=0){return t[e]=this.r,t[e+1]=this.g,t[e+2]=this.b,t}fromBufferAttribute(t,e){return this.r=t.getX(e),this.g=t.getY(e),this.b=t.getZ(e),this}toJSON(){return this.getHex()}*[Symbol.iterator](){yield this.r,yield this.g,yield this.b}},He=new Qt;Qt.NAMES=Sm;var yr=class extends Mn{constructor(){super(),this.isScene=!0,this.type="Scene",this.background=null,this.environment=null,this.fog=null,this.backgroundBlurriness=0,this.backgroundIntensity=1,this.backgroundRotation=new bi,this.environmentIntensity=1,this.environmentRotation=new bi,this.overrideMaterial=null,typeof __THREE_DEVTOOLS__<"u"&&__THREE_DEVTOOLS__.dispatchEvent(new CustomEvent("observe",{detail:this}))}copy(t,e){return super.copy(t,e),this.background=t.background!==null?t.background.clone():null,this.environment=t.environment!==null?t.environment.clone():null,this.fog=t.fog!==null?t.fog.clone():null,this.backgroundBlurriness=t.backgroundBlurriness,this.backgroundIntensity=t.backgroundIntensity,this.backgroundRotation.copy(t.backgroundRotation),this.environmentIntensity=t.environmentIntensity,this.environmentRotation.copy(t.environmentRotation),this.overrideMaterial=t.overrideMaterial!==null?t.overrideMaterial.clone():null,this.matrixAutoUpdate=t.matrixAutoUpdate,this}toJSON(t){let e=super.toJSON(t);return this.fog!==null&&(e.object.fog=this.fog.toJSON()),e.object.backgroundBlurriness=this.backgroundBlurriness,e.object.backgroundIntensity=this.backgroundIntensity,e.object.backgroundRotation=this.backgroundRotation.toArray(),e.object.environmentIntensity=this.environmentIntensity,e.object.environmentRotation=this.environmentRotation.toArray(),e}},In=new V,ei=new V,Vc=new V,ni=new V,ms=new V,gs=new V,Rp=new V,Hc=new V,Wc=new V,Xc=new V,$c=new me,qc=new me,Yc=new me,Mi=class i{constructor(t=new V,e=new V,n=new V){this.a=t,this.b=e,this.c=n}static getNormal(t,e,n,s){s.subVectors(n,e),In.subVectors(t,e),s.cross(In);let r=s.lengthSq();return r>0?s.multiplyScalar(1/Math.sqrt(r)):s.set(0,0,0)}static getBarycoord(t,e,n,s,r){In.subVectors(s,e),ei.subVectors(n,e),Vc.subVectors(t,e);let o=In.dot(In),a=In.dot(ei),l=In.dot(Vc),c=ei.dot(ei),h=ei.dot(Vc),d=o*c-a*a;if(d===0)return r.set(0,0,0),null;let u=1/d,f=(c*l-a*h)*u,m=(o*h-a*l)*u;return r.set(1-f-m,m,f)}static containsPoint(t,e,n,s){return this.getBarycoord(t,e,n,s,ni)===null?!1:ni.x>=0&&ni.y>=0&&ni.x+ni.y<=1}static getInterpolation(t,e,n,s,r,o,a,l){return this.getBarycoord(t,e,n,s,ni)===null?(l.x=0,l.y=0,"z"in l&&(l.z=0),"w"in l&&(l.w=0),null):(l.setScalar(0),l.addScaledVector(r,ni.x),l.addScaledVector(o,ni.y),l.addScaledVector(a,ni.z),l)}static getInterpolatedAttribute(t,e,n,s,r,o){return $c.setScalar(0),qc.setScalar(0),Yc.setScalar(0),$c.fromBufferAttribute(t,e),qc.fromBufferAttribute(t,n),Yc.fromBufferAttribute(t,s),o.setScalar(0),o.addScaledVector($c,r.x),o.addScaledVector(qc,r.y),o.addScaledVector(Yc,r.z),o}static isFrontFacing(t,e,n,s){return In.subVectors(n,e),ei.subVectors(t,e),In.cross(ei).dot(s)<0}set(t,e,n){return this.a.copy(t),this.b.copy(e),this.c.copy(n),this}setFromPointsAndIndices(t,e,n,s){return this.a.copy(t[e]),this.b.copy(t[n]),this.c.copy(t[s]),this}setFromAttributeAndIndices(t,e,n,s){return this.a.fromBufferAttribute(t,e),this.b.fromBufferAttribute(t,n),this.c.fromBufferAttribute(t,s),this}clone(){return new this.constructor().copy(this)}copy(t){return this.a.copy(t.a),this.b.copy(t.b),this.c.copy(t.c),this}getArea(){return In.subVectors(this.c,this.b),ei.subVectors(this.a,this.b),In.cross(ei).length()*.5}getMidpoint(t){return t.addVectors(this.a,this.b).add(this.c).multiplyScalar(1/3)}getNormal(t){return i.getNormal(this.a,this.b,this.c,t)}getPlane(t){return t.setFromCoplanarPoints(this.a,this.b,this.c)}getBarycoord(t,e){return i.getBarycoord(t,this.a,this.b,this.c,e)}getInterpolation(t,e,n,s,r){return i.getInterpolation(t,this.a,this.b,this.c,e,n,s,r)}containsPoint(t){return i.containsPoint(t,this.a,this.b,this.c)}isFrontFacing(t){return i.isFrontFacing(this.a,this.b,this.c,t)}intersectsBox(t){return t.intersectsTriangle(this)}closestPointToPoint(t,e){let n=this.a,s=this.b,r=this.c,o,a;ms.subVectors(s,n),gs.subVectors(r,n),Hc.subVectors(t,n);let l=ms.dot(Hc),c=gs.dot(Hc);if(l<=0&&c<=0)return e.copy(n);Wc.subVectors(t,s);let h=ms.dot(Wc),d=gs.dot(Wc);if(h>=0&&d<=h)return e.copy(s);let u=l*d-h*c;if(u<=0&&l>=0&&h<=0&&l-h>0)return o=l/(l-h),e.copy(n).addScaledVector(ms,o);Xc.subVectors(t,r);let f=ms.dot(Xc),m=gs.dot(Xc);if(m>=0&&f<=m)return e.copy(r);let v=f*c-l*m;if(v<=0&&c>=0&&m<=0)return a=c/(c-m),e.copy(n).addScaledVector(gs,a);let p=h*m-f*d;if(p<=0&&d-h>=0&&f-m>=0)return Rp.subVectors(r,s),a=(d-h)/(d-h+(f-m)),e.copy(s).addScaledVector(Rp,a);let g=1/(p+v+u);return o=v*g,a=u*g,e.copy(n).addScaledVector(ms,o).addScaledVector(gs,a)}equals(t){return t.a.equals(this.a)&&t.b.equals(this.b)&&t.c.equals(this.c)}},wi=class{constructor(t=new V(1/0,1/0,1/0),e=new V(-1/0,-1/0,-1/0)){this.isBox3=!0,this.min=t,this.max=e}set(t,e){return this.min.copy(t),this.max.copy(e),this}setFromArray(t){this.makeEmpty();for(let e=0,n=t.length;e<n;e+=3)this.expandByPoint(Pn.fromArray(t,e));return this}setFromBufferAttribute(t){this.makeEmpty();for(let e=0,n=t.count;e<n;e++)this.expandByPoint(Pn.fromBufferAttribute(t,e));return this}setFromPoints(t){this.makeEmpty();for(let e=0,n=t.length;e<n;e++)this.expandByPoint(t[e]);return this}setFromCenterAndSize(t,e){let n=Pn.copy(e).multiplyScalar(.5);return this.min.copy(t).sub(n),this.max.copy(t).add(n),this}setFromObject(t,e=!1){return this.makeEmpty(),this.expandByObject(t,e)}clone(){return new this.constructor().copy(this)}copy(t){return this.min.copy(t.min),this.max.copy(t.max),this}makeEmpty(){return this.min.x=this.min.y=this.min.z=1/0,this.max.x=this.max.y=this.max.z=-1/0,this}isEmpty(){return this.max.x<this.min.x||this.max.y<this.min.y||this.max.z<this.min.z}getCenter(t){return this.isEmpty()?t.set(0,0,0):t.addVectors(this.min,this.max).multiplyScalar(.5)}getSize(t){return this.isEmpty()?t.set(0,0,0):t.subVectors(this.max,this.min)}expandByPoint(t){return this.min.min(t),this.max.max(t),this}expandByVector(t){return this.min.sub(t),this.max.add(t),this}expandByScalar(t){return this.min.addScalar(-t),this.max.addScalar(t),this}expandByObject(t,e=!1){t.updateWorldMatrix(!1,!1);let n=t.geometry;if(n!==void 0){let r=n.getAttribute("position");if(e===!0&&r!==void 0&&t.isInstancedMesh!==!0&&t.isBatchedMesh!==!0)for(let o=0,a=r.count;o<a;o++)t.isMesh===!0?t.getVertexPosition(o,Pn):Pn.fromBufferAttribute(r,o),Pn.applyMatrix4(t.matrixWorld),this.expandByPoint(Pn);else t.boundingBox!==void 0?(t.boundingBox===null&&t.computeBoundingBox(),Uo.copy(t.boundingBox)):(n.boundingBox===null&&n.computeBoundingBox(),Uo.copy(n.boundingBox)),Uo.applyMatrix4(t.matrixWorld),this.union(Uo)}let s=t.children;for(let r=0,o=s.length;r<o;r++)this.expandByObject(s[r],e);return this}containsPoint(t){return t.x>=this.min.x&&t.x<=this.max.x&&t.y>=this.min.y&&t.y<=this.max.y&&t.z>=this.min.z&&t.z<=this.max.z}containsBox(t){return this.min.x<=t.min.x&&t.max.x<=this.max.x&&this.min.y<=t.min.y&&t.max.y<=this.max.y&&this.min.z<=t.min.z&&t.max.z<=this.max.z}getParameter(t,e){return e.set((t.x-this.min.x)/(this.max.x-this.min.x),(t.y-this.min.y)/(this.max.y-this.min.y),(t.z-this.min.z)/(this.max.z-this.min.z))}intersectsBox(t){return t.max.x>=this.min.x&&t.min.x<=this.max.x&&t.max.y>=this.min.y&&t.min.y<=this.max.y&&t.max.z>=this.min.z&&t.min.z<=this.max.z}intersectsSphere(t){return this.clampPoint(t.center,Pn),Pn.distanceToSquared(t.center)<=t.radius*t.radius}intersectsPlane(t){let e,n;return t.normal.x>0?(e=t.normal.x*this.min.x,n=t.normal.x*this.max.x):(e=t.normal.x*this.max.x,n=t.normal.x*this.min.x),t.normal.y>0?(e+=t.normal.y*this.min.y,n+=t.normal.y*this.max.y):(e+=t.normal.y*this.max.y,n+=t.normal.y*this.min.y),t.normal.z>0?(e+=t.normal.z*this.min.z,n+=t.normal.z*this.max.z):(e+=t.normal.z*this.max.z,n+=t.normal.z*this.min.z),e<=-t.constant&&n>=-t.constant}intersectsTriangle(t){if(this.isEmpty())return!1;this.getCenter(lr),Oo.subVectors(this.max,lr),_s.subVectors(t.a,lr),xs.subVectors(t.b,lr),ys.subVectors(t.c,lr),xi.subVectors(xs,_s),yi.subVectors(ys,xs),Bi.subVectors(_s,ys);let e=[0,-xi.z,xi.y,0,-yi.z,yi.y,0,-Bi.z,Bi.y,xi.z,0,-xi.x,yi.z,0,-yi.x,Bi.z,0,-Bi.x,-xi.y,xi.x,0,-yi.y,yi.x,0,-Bi.y,Bi.x,0];return!Zc(e,_s,xs,ys,Oo)||(e=[1,0,0,0,1,0,0,0,1],!Zc(e,_s,xs,ys,Oo))?!1:(Fo.crossVectors(xi,yi),e=[Fo.x,Fo.y,Fo.z],Zc(e,_s,xs,ys,Oo))}clampPoint(t,e){return e.copy(t).clamp(this.min,this.max)}distanceToPoint(t){return this.clampPoint(t,Pn).distanceTo(t)}getBoundingSphere(t){return this.isEmpty()?t.makeEmpty():(this.getCenter(t.center),t.radius=this.getSize(Pn).length()*.5),t}intersect(t){return this.min.max(t.min),this.max.min(t.max),this.isEmpty()&&this.makeEmpty(),this}union(t){return this.min.min(t.min),this.max.max(t.max),this}applyMatrix4(t){return this.isEmpty()?this:(ii[0].set(this.min.x,this.min.y,this.min.z).applyMatrix4(t),ii[1].set(this.min.x,this.min.y,this.max.z).applyMatrix4(t),ii[2].set(this.min.x,this.max.y,this.min.z).applyMatrix4(t),ii[3].set(this.min.x,this.max.y,this.max.z).applyMatrix4(t),ii[4].set(this.max.x,this.min.y,this.min.z).applyMatrix4(t),ii[5].set(this.max.x,this.min.y,this.max.z).applyMatrix4(t),ii[6].set(this.max.x,this.max.y,this.min.z).applyMatrix4(t),ii[7].set(this.max.x,this.max.y,this.max.z).applyMatrix4(t),this.setFromPoints(ii),this)}translate(t){return this.min.add(t),this.max.add(t),this}equals(t){return t.min.equals(this.min)&&t.max.equals(this.max)}toJSON(){return{min:this.min.toArray(),max:this.max.toArray()}}fromJSON(t){return this.min.fromArray(t.min),this.max.fromArray(t.max),this}},ii=[new V,new V,new V,new V,new V,new V,new V,new V],Pn=new V,Uo=new wi,_s=new V,xs=new V,ys=new V,xi=new V,yi=new V,Bi=new V,lr=new V,Oo=new V,Fo=new V,ki=new V;function Zc(i,t,e,n,s){for(let r=0,o=i.length-3;r<=o;r+=3){ki.fromArray(i,r);let a=s.x*Math.abs(ki.x)+s.y*Math.abs(ki.y)+s.z*Math.abs(ki.z),l=t.dot(ki),c=e.dot(ki),h=n.dot(ki);if(Math.max(-Math.max(l,c,h),Math.min(l,c,h))>a)return!1}return!0}var ve=new V,Bo=new te,dx=0,Be=class extends Vn{constructor(t,e,n=!1){if(super(),Array.isArray(t))throw new TypeError("THREE.BufferAttribute: array should be a Typed Array.");this.isBufferAttribute=!0,Object.defineProperty(this,"id",{value:dx++}),this.name="",this.array=t,this.itemSize=e,this.count=t!==void 0?t.length/e:0,this.normalized=n,this.usage=gm,this.updateRanges=[],this.gpuType=Un,this.version=0,this._normalizationScale=t!==void 0?Dh(t):void 0}onUploadCallback(){}set needsUpdate(t){t===!0&&this.version++}setUsage(t){return this.usage=t,this}addUpdateRange(t,e){this.updateRanges.push({start:t,count:e})}clearUpdateRanges(){this.updateRanges.length=0}copy(t){return this.name=t.name,this.array=new t.array.constructor(t.array),this.itemSize=t.itemSize,this.count=t.count,this.normalized=t.normalized,this.usage=t.usage,this.gpuType=t.gpuType,this._normalizationScale=t._normalizationScale,this}copyAt(t,e,n){t*=this.itemSize,n*=e.itemSize;for(let s=0,r=this.itemSize;s<r;s++)this.array[t+s]=e.array[n+s];return this}copyArray(t){return this.array.set(t),this}applyMatrix3(t){if(this.itemSize===2)for(let e=0,n=this.count;e<n;e++)Bo.fromBufferAttribute(this,e),Bo.applyMatrix3(t),this.setXY(e,Bo.x,Bo.y);else if(this.itemSize===3)for(let e=0,n=this.count;e<n;e++)ve.fromBufferAttribute(this,e),ve.applyMatrix3(t),this.setXYZ(e,ve.x,ve.y,ve.z);return this}applyMatrix4(t){for(let e=0,n=this.count;e<n;e++)ve.fromBufferAttribute(this,e),ve.applyMatrix4(t),this.setXYZ(e,ve.x,ve.y,ve.z);return this}applyNormalMatrix(t){for(let e=0,n=this.count;e<n;e++)ve.fromBufferAttribute(this,e),ve.applyNormalMatrix(t),this.setXYZ(e,ve.x,ve.y,ve.z);return this}transformDirection(t){for(let e=0,n=this.count;e<n;e++)ve.fromBufferAttribute(this,e),ve.transformDirection(t),this.setXYZ(e,ve.x,ve.y,ve.z);return this}set(t,e=0){return this.array.set(t,e),this}getComponent(t,e){let n=this.array[t*this.itemSize+e];return this.normalized&&(n=this._denormalize(n)),n}setComponent(t,e,n){return this.normalized&&(n=this._normalize(n)),this.array[t*this.itemSize+e]=n,this}getX(t){let e=this.array[t*this.itemSize];return this.normalized&&(e=this._denormalize(e)),e}setX(t,e){return this.normalized&&(e=this._normalize(e)),this.array[t*this.itemSize]=e,this}getY(t){let e=this.array[t*this.itemSize+1];return this.normalized&&(e=this._denormalize(e)),e}setY(t,e){return this.normalized&&(e=this._normalize(e)),this.array[t*this.itemSize+1]=e,this}getZ(t){let e=this.array[t*this.itemSize+2];return this.normalized&&(e=this._denormalize(e)),e}setZ(t,e){return this.normalized&&(e=this._normalize(e)),this.array[t*this.itemSize+2]=e,this}getW(t){let e=this.array[t*this.itemSize+3];return this.normalized&&(e=this._denormalize(e)),e}setW(t,e){return this.normalized&&(e=this._normalize(e)),this.array[t*this.itemSize+3]=e,this}setXY(t,e,n){return t*=this.itemSize,this.normalized&&(e=this._normalize(e),n=this._normalize(n)),this.array[t+0]=e,this.array[t+1]=n,this}setXYZ(t,e,n,s){return t*=this.itemSize,this.normalized&&(e=this._normalize(e),n=this._normalize(n),s=this._normalize(s)),this.array[t+0]=e,this.array[t+1]=n,this.array[t+2]=s,this}setXYZW(t,e,n,s,r){return t*=this.itemSize,this.normalized&&(e=this._normalize(e),n=this._normalize(n),s=this._normalize(s),r=this._normalize(r)),this.array[t+0]=e,this.array[t+1]=n,this.array[t+2]=s,this.array[t+3]=r,this}onUpload(t){return this.onUploadCallback=t,this}clone(){return new this.constructor(this.array,this.itemSize).copy(this)}toJSON(){let t={itemSize:this.itemSize,type:this.array.constructor.name,array:Array.from(this.array),normalized:this.normalized};return t.name=this.name,t.usage=this.usage,t.gpuType=this.gpuType,t}dispose(){this.dispatchEvent({type:"dispose"})}_denormalize(t){let e=this._normalizationScale;return e!==void 0?Math.max(t/e,-1):tx(t,this.array)}_normalize(t){let e=this._normalizationScale;return e!==void 0?Math.round(t*e):ex(t,this.array)}};var vr=class extends Be{constructor(t,e,n){super(new Uint16Array(t),e,n)}};var Mr=class extends Be{constructor(t,e,n){super(new Uint32Array(t),e,n)}};var vn=class extends Be{constructor(t,e,n){super(new Float32Array(t),e,n)}},fx=new wi,cr=new V,Jc=new V,Rs=class{constructor(t=new V,e=-1){this.isSphere=!0,this.center=t,this.radius=e}set(t,e){return this.center.copy(t),this.radius=e,this}setFromPoints(t,e){let n=this.center;e!==void 0?n.copy(e):fx.setFromPoints(t).getCenter(n);let s=0;for(let r=0,o=t.length;r<o;r++)s=Math.max(s,n.distanceToSquared(t[r]));return this.radius=Math.sqrt(s),this}copy(t){return this.center.copy(t.center),this.radius=t.radius,this}isEmpty(){return this.radius<0}makeEmpty(){return this.center.set(0,0,0),this.radius=-1,this}containsPoint(t){return t.distanceToSquared(this.center)<=this.radius*this.radius}distanceToPoint(t){return t.distanceTo(this.center)-this.radius}intersectsSphere(t){let e=this.radius+t.radius;return t.center.distanceToSquared(this.center)<=e*e}intersectsBox(t){return t.intersectsSphere(this)}intersectsPlane(t){return Math.abs(t.distanceToPoint(this.center))<=this.radius}clampPoint(t,e){let n=this.center.distanceToSquared(t);return e.copy(t),n>this.radius*this.radius&&(e.sub(this.center).normalize(),e.multiplyScalar(this.radius).add(this.center)),e}getBoundingBox(t){return this.isEmpty()?(t.makeEmpty(),t):(t.set(this.center,this.center),t.expandByScalar(this.radius),t)}applyMatrix4(t){return this.center.applyMatrix4(t),this.radius=this.radius*t.getMaxScaleOnAxis(),this}translate(t){return this.center.add(t),this}expandByPoint(t){if(this.isEmpty())return this.center.copy(t),this.radius=0,this;cr.subVectors(t,this.center);let e=cr.lengthSq();if(e>this.radius*this.radius){let n=Math.sqrt(e),s=(n-this.radius)*.5;this.center.addScaledVector(cr,s/n),this.radius+=s}return this}union(t){return t.isEmpty()?this:this.isEmpty()?(this.copy(t),this):(this.center.equals(t.center)===!0?this.radius=Math.max(this.radius,t.radius):(Jc.subVectors(t.center,this.center).setLength(t.radius),this.expandByPoint(cr.copy(t.center).add(Jc)),this.expandByPoint(cr.copy(t.center).sub(Jc))),this)}equals(t){return t.center.equals(this.center)&&t.radius===this.radius}clone(){return new this.constructor().copy(this)}toJSON(){return{radius:this.radius,center:this.center.toArray()}}fromJSON(t){return this.radius=t.radius,this.center.fromArray(t.center),this}},px=0,xn=new ge,Kc=new Mn,vs=new V,nn=new wi,hr=new wi,Le=new V,Nn=class i extends Vn{constructor(){super(),this.isBufferGeometry=!0,Object.defineProperty(this,"id",{value:px++}),this.uuid=Fr(),this.name="",this.type="BufferGeometry",this.index=null,this.indirect=null,this.indirectOffset=0,this.attributes={},this.morphAttributes={},this.morphTargetsRelative=!1,this.groups=[],this.boundingBox=null,this.boundingSphere=null,this.drawRange={start:0,count:1/0},this.userData={},this._transformed=!1}getIndex(){return this.index}setIndex(t){return Array.isArray(t)?this.index=new(K_(t)?Mr:vr)(t,1):this.index=t,this}setIndirect(t,e=0){return this.indirect=t,this.indirectOffset=e,this}getIndirect(){return this.indirect}getAttribute(t){return this.attributes[t]}setAttribute(t,e){return this.attributes[t]=e,this}deleteAttribute(t){return delete this.attributes[t],this}hasAttribute(t){return this.attributes[t]!==void 0}addGroup(t,e,n=0){this.groups.push({start:t,count:e,materialIndex:n})}clearGroups(){this.groups=[]}setDrawRange(t,e){this.drawRange.start=t,this.drawRange.count=e}applyMatrix4(t){let e=this.attributes.position;e!==void 0&&(e.applyMatrix4(t),e.needsUpdate=!0);let n=this.attributes.normal;if(n!==void 0){let r=new Ot().getNormalMatrix(t);n.applyNormalMatrix(r),n.needsUpdate=!0}let s=this.attributes.tangent;return s!==void 0&&(s.transformDirection(t),s.needsUpdate=!0),this.boundingBox!==null&&this.computeBoundingBox(),this.boundingSphere!==null&&this.computeBoundingSphere(),this._transformed=!0,this}applyQuaternion(t){return xn.makeRotationFromQuaternion(t),this.applyMatrix4(xn),this}rotateX(t){return xn.makeRotationX(t),this.applyMatrix4(xn),this}rotateY(t){return xn.makeRotationY(t),this.applyMatrix4(xn),this}rotateZ(t){return xn.makeRotationZ(t),this.applyMatrix4(xn),this}translate(t,e,n){return xn.makeTranslation(t,e,n),this.applyMatrix4(xn),this}scale(t,e,n){return xn.makeScale(t,e,n),this.applyMatrix4(xn),this}lookAt(t){return Kc.lookAt(t),Kc.updateMatrix(),this.applyMatrix4(Kc.matrix),this}center(){return this.computeBoundingBox(),this.boundingBox.getCenter(vs).negate(),this.translate(vs.x,vs.y,vs.z),this}setFromPoints(t){let e=this.getAttribute("position");if(e===void 0){let n=[];for(let s=0,r=t.length;s<r;s++){let o=t[s];n.push(o.x,o.y,o.z||0)}this.setAttribute("position",new vn(n,3))}else{let n=Math.min(t.length,e.count);for(let s=0;s<n;s++){let r=t[s];e.setXYZ(s,r.x,r.y,r.z||0)}t.length>e.count&&Nt("BufferGeometry: Buffer size too small for points data. Use .dispose() and create a new geometry."),e.needsUpdate=!0}return this}computeBoundingBox(){this.boundingBox===null&&(this.boundingBox=new wi);let t=this.attributes.position,e=this.morphAttributes.position;if(t&&t.isGLBufferAttribute){Ut("BufferGeometry.computeBoundingBox(): GLBufferAttribute requires a manual bounding box.",this),this.boundingBox.set(new V(-1/0,-1/0,-1/0),new V(1/0,1/0,1/0));return}if(t!==void 0){if(this.boundingBox.setFromBufferAttribute(t),e)for(let n=0,s=e.length;n<s;n++){let r=e[n];nn.setFromBufferAttribute(r),this.morphTargetsRelative?(Le.addVectors(this.boundingBox.min,nn.min),this.boundingBox.expandByPoint(Le),Le.addVectors(this.boundingBox.max,nn.max),this.boundingBox.expandByPoint(Le)):(this.boundingBox.expandByPoint(nn.min),this.boundingBox.expandByPoint(nn.max))}}else this.boundingBox.makeEmpty();(isNaN(this.boundingBox.min.x)||isNaN(this.boundingBox.min.y)||isNaN(this.boundingBox.min.z))&&Ut('BufferGeometry.computeBoundingBox(): Computed min/max have NaN values. The "position" attribute is likely to have NaN values.',this)}computeBoundingSphere(){this.boundingSphere===null&&(this.boundingSphere=new Rs);let t=this.attributes.position,e=this.morphAttributes.position;if(t&&t.isGLBufferAttribute){Ut("BufferGeometry.computeBoundingSphere(): GLBufferAttribute requires a manual bounding sphere.",this),this.boundingSphere.set(new V,1/0);return}if(t){let n=this.boundingSphere.center;if(nn.setFromBufferAttribute(t),e)for(let r=0,o=e.length;r<o;r++){let a=e[r];hr.setFromBufferAttribute(a),this.morphTargetsRelative?(Le.addVectors(nn.min,hr.min),nn.expandByPoint(Le),Le.addVectors(nn.max,hr.max),nn.expandByPoint(Le)):(nn.expandByPoint(hr.min),nn.expandByPoint(hr.max))}nn.getCenter(n);let s=0;for(let r=0,o=t.count;r<o;r++)Le.fromBufferAttribute(t,r),s=Math.max(s,n.distanceToSquared(Le));if(e)for(let r=0,o=e.length;r<o;r++){let a=e[r],l=this.morphTargetsRelative;for(let c=0,h=a.count;c<h;c++)Le.fromBufferAttribute(a,c),l&&(vs.fromBufferAttribute(t,c),Le.add(vs)),s=Math.max(s,n.distanceToSquared(Le))}this.boundingSphere.radius=Math.sqrt(s),isNaN(this.boundingSphere.radius)&&Ut('BufferGeometry.computeBoundingSphere(): Computed radius is NaN. The "position" attribute is likely to have NaN values.',this)}}computeTangents(){let t=this.index,e=this.attributes;if(t===null||e.position===void 0||e.normal===void 0||e.uv===void 0){Ut("BufferGeometry: .computeTangents() failed. Missing required attributes (index, position, normal or uv)");return}let n=e.position,s=e.normal,r=e.uv,o=this.getAttribute("tangent");(o===void 0||o.count!==n.count)&&(o=new Be(new Float32Array(4*n.count),4),this.setAttribute("tangent",o));let a=[],l=[],c=new Uint8Array(n.count);for(let k=0;k<n.count;k++)a[k]=new V,l[k]=new V;let h=new V,d=new V,u=new V,f=new te,m=new te,v=new te,p=new V,g=new V;function M(k,N,U){c[k]=c[N]=c[U]=1,h.fromBufferAttribute(n,k),d.fromBufferAttribute(n,N),u.fromBufferAttribute(n,U),f.fromBufferAttribute(r,k),m.fromBufferAttribute(r,N),v.fromBufferAttribute(r,U),d.sub(h),u.sub(h),m.sub(f),v.sub(f);let z=1/(m.x*v.y-v.x*m.y);isFinite(z)&&(p.copy(d).multiplyScalar(v.y).addScaledVector(u,-m.y).multiplyScalar(z),g.copy(u).multiplyScalar(m.x).addScaledVector(d,-v.x).multiplyScalar(z),a[k].add(p),a[N].add(p),a[U].add(p),l[k].add(g),l[N].add(g),l[U].add(g))}let I=this.groups;I.length===0&&(I=[{start:0,count:t.count}]);for(let k=0,N=I.length;k<N;++k){let U=I[k],z=U.start,Y=U.count;for(let L=z,$=z+Y;L<$;L+=3)M(t.getX(L+0),t.getX(L+1),t.getX(L+2))}let w=new V,C=new V,T=new V,_=new V;function b(k){T.fromBufferAttribute(s,k),_.copy(T);let N=a[k];w.copy(N),w.sub(T.multiplyScalar(T.dot(N))).normalize(),C.crossVectors(_,N);let z=C.dot(l[k])<0?-1:1;o.setXYZW(k,w.x,w.y,w.z,z)}for(let k=0,N=n.count;k<N;++k)c[k]&&b(k);this._transformed=!0}computeVertexNormals(){let t=this.index,e=this.getAttribute("position");if(e!==void 0){let n=this.getAttribute("normal");if(n===void 0||n.count!==e.count)n=new Be(new Float32Array(e.count*3),3),this.setAttribute("normal",n);else for(let u=0,f=n.count;u<f;u++)n.setXYZ(u,0,0,0);let s=new V,r=new V,o=new V,a=new V,l=new V,c=new V,h=new V,d=new V;if(t)for(let u=0,f=t.count;u<f;u+=3){let m=t.getX(u+0),v=t.getX(u+1),p=t.getX(u+2);s.fromBufferAttribute(e,m),r.fromBufferAttribute(e,v),o.fromBufferAttribute(e,p),h.subVectors(o,r),d.subVectors(s,r),h.cross(d),a.fromBufferAttribute(n,m),l.fromBufferAttribute(n,v),c.fromBufferAttribute(n,p),a.add(h),l.add(h),c.add(h),n.setXYZ(m,a.x,a.y,a.z),n.setXYZ(v,l.x,l.y,l.z),n.setXYZ(p,c.x,c.y,c.z)}else for(let u=0,f=e.count;u<f;u+=3)s.fromBufferAttribute(e,u+0),r.fromBufferAttribute(e,u+1),o.fromBufferAttribute(e,u+2),h.subVectors(o,r),d.subVectors(s,r),h.cross(d),n.setXYZ(u+0,h.x,h.y,h.z),n.setXYZ(u+1,h.x,h.y,h.z),n.setXYZ(u+2,h.x,h.y,h.z);this.normalizeNormals(),n.needsUpdate=!0}}normalizeNormals(){let t=this.attributes.normal;for(let e=0,n=t.count;e<n;e++)Le.fromBufferAttribute(t,e),Le.normalize(),t.setXYZ(e,Le.x,Le.y,Le.z)}toNonIndexed(){function t(a,l){let c=a.array,h=a.itemSize,d=a.normalized,u=new c.constructor(l.length*h),f=0,m=0;for(let v=0,p=l.length;v<p;v++){a.isInterleavedBufferAttribute?f=l[v]*a.data.stride+a.offset:f=l[v]*h;for(let g=0;g<h;g++)u[m++]=c[f++]}return new Be(u,h,d)}if(this.index===null)return Nt("BufferGeometry.toNonIndexed(): BufferGeometry is already non-indexed."),this;let e=new i,n=this.index.array,s=this.attributes;for(let a in s){let l=s[a],c=t(l,n);e.setAttribute(a,c)}let r=this.morphAttributes;for(let a in r){let l=[],c=r[a];for(let h=0,d=c.length;h<d;h++){let u=c[h],f=t(u,n);l.push(f)}e.morphAttributes[a]=l}e.morphTargetsRelative=this.morphTargetsRelative;let o=this.groups;for(let a=0,l=o.length;a<l;a++){let c=o[a];e.addGroup(c.start,c.count,c.materialIndex)}return e}toJSON(){let t={metadata:{version:4.7,type:"BufferGeometry",generator:"BufferGeometry.toJSON"}};if(t.uuid=this.uuid,t.type=this.parameters!==void 0&&this._transformed===!0?"BufferGeometry":this.type,t.name=this.name,Object.keys(this.userData).length>0&&(t.userData=this.userData),this.parameters!==void 0&&this._transformed!==!0){let l=this.parameters;for(let c in l)l[c]!==void 0&&(t[c]=l[c]);return t}t.data={attributes:{}};let e=this.index;e!==null&&(t.data.index={type:e.array.constructor.name,array:Array.prototype.slice.call(e.array)});let n=this.attributes;for(let l in n){let c=n[l];t.data.attributes[l]=c.toJSON(t.data)}let s={},r=!1;for(let l in this.morphAttributes){let c=this.morphAttributes[l],h=[];for(let d=0,u=c.length;d<u;d++){let f=c[d];h.push(f.toJSON(t.data))}h.length>0&&(s[l]=h,r=!0)}r&&(t.data.morphAttributes=s,t.data.morphTargetsRelative=this.morphTargetsRelative);let o=this.groups;o.length>0&&(t.data.groups=JSON.parse(JSON.stringify(o)));let a=this.boundingSphere;return a!==null&&(t.data.boundingSphere=a.toJSON()),t}clone(){return new this.constructor().copy(this)}copy(t){this.index=null,this.attributes={},this.morphAttributes={},this.groups=[],this.boundingBox=null,this.boundingSphere=null;let e={};this.name=t.name;let n=t.index;n!==null&&this.setIndex(n.clone());let s=t.attributes;for(let c in s){let h=s[c];this.setAttribute(c,h.clone(e))}let r=t.morphAttributes;for(let c in r){let h=[],d=r[c];for(let u=0,f=d.length;u<f;u++)h.push(d[u].clone(e));this.morphAttributes[c]=h}this.morphTargetsRelative=t.morphTargetsRelative;let o=t.groups;for(let c=0,h=o.length;c<h;c++){let d=o[c];this.addGroup(d.start,d.count,d.materialIndex)}let a=t.boundingBox;a!==null&&(this.boundingBox=a.clone());let l=t.boundingSphere;return l!==null&&(this.boundingSphere=l.clone()),this.drawRange.start=t.drawRange.start,this.drawRange.count=t.drawRange.count,this.userData=t.userData,this._transformed=t._transformed,this}dispose(){this.dispatchEvent({type:"dispose"})}};var jc=new V,mx=new V,gx=new Ot,Ln=class{constructor(t=new V(1,0,0),e=0){this.isPlane=!0,this.normal=t,this.constant=e}set(t,e){return this.normal.copy(t),this.constant=e,this}setComponents(t,e,n,s){return this.normal.set(t,e,n),this.constant=s,this}setFromNormalAndCoplanarPoint(t,e){return this.normal.copy(t),this.constant=-e.dot(this.normal),this}setFromCoplanarPoints(t,e,n){let s=jc.subVectors(n,e).cross(mx.subVectors(t,e)).normalize();return this.setFromNormalAndCoplanarPoint(s,t),this}copy(t){return this.normal.copy(t.normal),this.constant=t.constant,this}normalize(){let t=1/this.normal.length();return this.normal.multiplyScalar(t),this.constant*=t,this}negate(){return this.constant*=-1,this.normal.negate(),this}distanceToPoint(t){return this.normal.dot(t)+this.constant}distanceToSphere(t){return this.distanceToPoint(t.center)-t.radius}projectPoint(t,e){return e.copy(t).addScaledVector(this.normal,-this.distanceToPoint(t))}intersectLine(t,e,n=!0){let s=t.delta(jc),r=this.normal.dot(s);if(r===0)return this.distanceToPoint(t.start)===0?e.copy(t.start):null;let o=-(t.start.dot(this.normal)+this.constant)/r;return n===!0&&(o<0||o>1)?null:e.copy(t.start).addScaledVector(s,o)}intersectsLine(t){let e=this.distanceToPoint(t.start),n=this.distanceToPoint(t.end);return e<0&&n>0||n<0&&e>0}intersectsBox(t){return t.intersectsPlane(this)}intersectsSphere(t){return t.intersectsPlane(this)}coplanarPoint(t){return t.copy(this.normal).multiplyScalar(-this.constant)}applyMatrix4(t,e){let n=e||gx.getNormalMatrix(t),s=this.coplanarPoint(jc).applyMatrix4(t),r=this.normal.applyMatrix3(n).normalize();return this.constant=-s.dot(r),this}translate(t){return this.constant-=t.dot(this.normal),this}equals(t){return t.normal.equals(this.normal)&&t.constant===this.constant}clone(){return new this.constructor().copy(this)}toJSON(){return{normal:this.normal.toArray(),constant:this.constant}}fromJSON(t){return this.normal.fromArray(t.normal),this.constant=t.constant,this}},_x=0,Hi=class extends Vn{constructor(){super(),this.isMaterial=!0,Object.defineProperty(this,"id",{value:_x++}),this.uuid=Fr(),this.name="",this.type="Material",this.blending=Us,this.side=Xn,this.vertexColors=!1,this.opacity=1,this.transparent=!1,this.alphaHash=!1,this.blendSrc=uh,this.blendDst=dh,this.blendEquation=$i,this.blendSrcAlpha=null,this.blendDstAlpha=null,this.blendEquationAlpha=null,this.blendColor=new Qt(0,0,0),this.blendAlpha=0,this.depthFunc=Si,this.depthTest=!0,this.depthWrite=!0,this.stencilWriteMask=255,this.stencilFunc=hm,this.stencilRef=0,this.stencilFuncMask=255,this.stencilFail=Qo,this.stencilZFail=Qo,this.stencilZPass=Qo,this.stencilWrite=!1,this.clippingPlanes=null,this.clipIntersection=!1,this.clipShadows=!1,this.shadowSide=null,this.colorWrite=!0,this.precision=null,this.polygonOffset=!1,this.polygonOffsetFactor=0,this.polygonOffsetUnits=0,this.dithering=!1,this.alphaToCoverage=!1,this.premultipliedAlpha=!1,this.forceSinglePass=!1,this.allowOverride=!0,this.visible=!0,this.toneMapped=!0,this.userData={},this.version=0,this._alphaTest=0}get alphaTest(){return this._alphaTest}set alphaTest(t){this._alphaTest>0!=t>0&&this.version++,this._alphaTest=t}onBeforeRender(){}onBeforeCompile(){}customProgramCacheKey(){return this.onBeforeCompile.toString()}setValues(t){if(t!==void 0)for(let e in t){let n=t[e];if(n===void 0){Nt(`Material: parameter '${e}' has value of undefined.`);continue}let s=this[e];if(s===void 0){Nt(`Material: '${e}' is not a property of THREE.${this.type}.`);continue}s&&s.isColor?s.set(n):s&&s.isVector2&&n&&n.isVector2||s&&s.isEuler&&n&&n.isEuler||s&&s.isVector3&&n&&n.isVector3?s.copy(n):this[e]=n}}toJSON(t){let e=t===void 0||typeof t=="string";e&&(t={textures:{},images:{}});let n={metadata:{version:4.7,type:"Material",generator:"Material.toJSON"}};n.uuid=this.uuid,n.type=this.type,n.blending=this.blending,n.side=this.side,n.shadowSide=this.shadowSide,n.vertexColors=this.vertexColors,n.opacity=this.opacity,n.transparent=this.transparent,n.blendSrc=this.blendSrc,n.blendDst=this.blendDst,n.blendEquation=this.blendEquation,n.blendSrcAlpha=this.blendSrcAlpha,n.blendDstAlpha=this.blendDstAlpha,n.blendEquationAlpha=this.blendEquationAlpha,n.blendColor=this.blendColor.getHex(),n.blendAlpha=this.blendAlpha,n.depthFunc=this.depthFunc,n.depthTest=this.depthTest,n.depthWrite=this.depthWrite,n.colorWrite=this.colorWrite,n.clipIntersection=this.clipIntersection,n.clipShadows=this.clipShadows,n.stencilWriteMask=this.stencilWriteMask,n.stencilFunc=this.stencilFunc,n.stencilRef=this.stencilRef,n.stencilFuncMask=this.stencilFuncMask,n.stencilFail=this.stencilFail,n.stencilZFail=this.stencilZFail,n.stencilZPass=this.stencilZPass,n.stencilWrite=this.stencilWrite,n.polygonOffset=this.polygonOffset,n.polygonOffsetFactor=this.polygonOffsetFactor,n.polygonOffsetUnits=this.polygonOffsetUnits,n.dithering=this.dithering,n.alphaTest=this.alphaTest,n.alphaHash=this.alphaHash,n.alphaToCoverage=this.alphaToCoverage,n.premultipliedAlpha=this.premultipliedAlpha,n.forceSinglePass=this.forceSinglePass,n.allowOverride=this.allowOverride,n.visible=this.visible,n.toneMapped=this.toneMapped,n.name=this.name,this.color&&this.color.isColor&&(n.color=this.color.getHex()),this.roughness!==void 0&&(n.roughness=this.roughness),this.metalness!==void 0&&(n.metalness=this.metalness),this.sheen!==void 0&&(n.sheen=this.sheen),this.sheenColor&&this.sheenColor.isColor&&(n.sheenColor=this.sheenColor.getHex()),this.sheenRoughness!==void 0&&(n.sheenRoughness=this.sheenRoughness),this.emissive&&this.emissive.isColor&&(n.emissive=this.emissive.getHex()),this.emissiveIntensity!==void 0&&(n.emissiveIntensity=this.emissiveIntensity),this.specular&&this.specular.isColor&&(n.specular=this.specular.getHex()),this.specularIntensity!==void 0&&(n.specularIntensity=this.specularIntensity),this.specularColor&&this.specularColor.isColor&&(n.specularColor=this.specularColor.getHex()),this.shininess!==void 0&&(n.shininess=this.shininess),this.clearcoat!==void 0&&(n.clearcoat=this.clearcoat),this.clearcoatRoughness!==void 0&&(n.clearcoatRoughness=this.clearcoatRoughness),this.diffuseRoughness!==void 0&&(n.diffuseRoughness=this.diffuseRoughness),this.diffuseRoughnessMap&&this.diffuseRoughnessMap.isTexture&&(n.diffuseRoughnessMap=this.diffuseRoughnessMap.toJSON(t).uuid),this.clearcoatMap&&this.clearcoatMap.isTexture&&(n.clearcoatMap=this.clearcoatMap.toJSON(t).uuid),this.clearcoatRoughnessMap&&this.clearcoatRoughnessMap.isTexture&&(n.clearcoatRoughnessMap=this.clearcoatRoughnessMap.toJSON(t).uuid),this.clearcoatNormalMap&&this.clearcoatNormalMap.isTexture&&(n.clearcoatNormalMap=this.clearcoatNormalMap.toJSON(t).uuid,n.clearcoatNormalScale=this.clearcoatNormalScale.toArray()),this.sheenColorMap&&this.sheenColorMap.isTexture&&(n.sheenColorMap=this.sheenColorMap.toJSON(t).uuid),this.sheenRoughnessMap&&this.sheenRoughnessMap.isTexture&&(n.sheenRoughnessMap=this.sheenRoughnessMap.toJSON(t).uuid),this.dispersion!==void 0&&(n.dispersion=this.dispersion),this.retroreflectivity!==void 0&&(n.retroreflectivity=this.retroreflectivity),this.iridescence!==void 0&&(n.iridescence=this.iridescence),this.iridescenceIOR!==void 0&&(n.iridescenceIOR=this.iridescenceIOR),this.iridescenceThicknessMinimum!==void 0&&(n.iridescenceThicknessMinimum=this.iridescenceThicknessMinimum),this.iridescenceThicknessMaximum!==void 0&&(n.iridescenceThicknessMaximum=this.iridescenceThicknessMaximum),this.iridescenceMap&&this.iridescenceMap.isTexture&&(n.iridescenceMap=this.iridescenceMap.toJSON(t).uuid),this.iridescenceThicknessMap&&this.iridescenceThicknessMap.isTexture&&(n.iridescenceThicknessMap=this.iridescenceThicknessMap.toJSON(t).uuid),this.anisotropy!==void 0&&(n.anisotropy=this.anisotropy),this.anisotropyRotation!==void 0&&(n.anisotropyRotation=this.anisotropyRotation),this.anisotropyMap&&this.anisotropyMap.isTexture&&(n.anisotropyMap=this.anisotropyMap.toJSON(t).uuid),this.map&&this.map.isTexture&&(n.map=this.map.toJSON(t).uuid),this.matcap&&this.matcap.isTexture&&(n.matcap=this.matcap.toJSON(t).uuid),this.alphaMap&&this.alphaMap.isTexture&&(n.alphaMap=this.alphaMap.toJSON(t).uuid),this.lightMap&&this.lightMap.isTexture&&(n.lightMap=this.lightMap.toJSON(t).uuid,n.lightMapIntensity=this.lightMapIntensity),this.aoMap&&this.aoMap.isTexture&&(n.aoMap=this.aoMap.toJSON(t).uuid,n.aoMapIntensity=this.aoMapIntensity),this.bumpMap&&this.bumpMap.isTexture&&(n.bumpMap=this.bumpMap.toJSON(t).uuid,n.bumpScale=this.bumpScale),this.normalMap&&this.normalMap.isTexture&&(n.normalMap=this.normalMap.toJSON(t).uuid,n.normalMapType=this.normalMapType,n.normalScale=this.normalScale.toArray()),this.displacementMap&&this.displacementMap.isTexture&&(n.displacementMap=this.displacementMap.toJSON(t).uuid,n.displacementScale=this.displacementScale,n.displacementBias=this.displacementBias),this.roughnessMap&&this.roughnessMap.isTexture&&(n.roughnessMap=this.roughnessMap.toJSON(t).uuid),this.metalnessMap&&this.metalnessMap.isTexture&&(n.metalnessMap=this.metalnessMap.toJSON(t).uuid),this.emissiveMap&&this.emissiveMap.isTexture&&(n.emissiveMap=this.emissiveMap.toJSON(t).uuid),this.specularMap&&this.specularMap.isTexture&&(n.specularMap=this.specularMap.toJSON(t).uuid),this.specularIntensityMap&&this.specularIntensityMap.isTexture&&(n.specularIntensityMap=this.specularIntensityMap.toJSON(t).uuid),this.specularColorMap&&this.specularColorMap.isTexture&&(n.specularColorMap=this.specularColorMap.toJSON(t).uuid),this.envMap&&this.envMap.isTexture&&(n.envMap=this.envMap.toJSON(t).uuid,this.combine!==void 0&&(n.combine=this.combine)),this.envMapRotation!==void 0&&(n.envMapRotation=this.envMapRotation.toArray()),this.envMapIntensity!==void 0&&(n.envMapIntensity=this.envMapIntensity),this.reflectivity!==void 0&&(n.reflectivity=this.reflectivity),this.refractionRatio!==void 0&&(n.refractionRatio=this.refractionRatio),this.gradientMap&&this.gradientMap.isTexture&&(n.gradientMap=this.gradientMap.toJSON(t).uuid),this.transmission!==void 0&&(n.transmission=this.transmission),this.transmissionMap&&this.transmissionMap.isTexture&&(n.transmissionMap=this.transmissionMap.toJSON(t).uuid),this.thickness!==void 0&&(n.thickness=this.thickness),this.thicknessMap&&this.thicknessMap.isTexture&&(n.thicknessMap=this.thicknessMap.toJSON(t).uuid),this.attenuationDistance!==void 0&&(n.attenuationDistance=this.attenuationDistance),this.attenuationColor!==void 0&&(n.attenuationColor=this.attenuationColor.getHex()),this.size!==void 0&&(n.size=this.size),this.sizeAttenuation!==void 0&&(n.sizeAttenuation=this.sizeAttenuation),Array.isArray(this.clippingPlanes)&&this.clippingPlanes.length>0&&(n.clippingPlanes=this.clippingPlanes.map(r=>r.toJSON())),this.rotation!==void 0&&(n.rotation=this.rotation),this.depthPacking!==void 0&&(n.depthPacking=this.depthPacking),this.linewidth!==void 0&&(n.linewidth=this.linewidth),this.linecap!==void 0&&(n.linecap=this.linecap),this.linejoin!==void 0&&(n.linejoin=this.linejoin),this.dashSize!==void 0&&(n.dashSize=this.dashSize),this.gapSize!==void 0&&(n.gapSize=this.gapSize),this.scale!==void 0&&(n.scale=this.scale),this.wireframe!==void 0&&(n.wireframe=this.wireframe),this.wireframeLinewidth!==void 0&&(n.wireframeLinewidth=this.wireframeLinewidth),this.wireframeLinecap!==void 0&&(n.wireframeLinecap=this.wireframeLinecap),this.wireframeLinejoin!==void 0&&(n.wireframeLinejoin=this.wireframeLinejoin),this.flatShading!==void 0&&(n.flatShading=this.flatShading),this.fog!==void 0&&(n.fog=this.fog),Object.keys(this.userData).length>0&&(n.userData=this.userData);function s(r){let o=[];for(let a in r){let l=r[a];delete l.metadata,o.push(l)}return o}if(e){let r=s(t.textures),o=s(t.images);r.length>0&&(n.textures=r),o.length>0&&(n.images=o)}return n}fromJSON(t,e){if(t.uuid!==void 0&&(this.uuid=t.uuid),t.name!==void 0&&(this.name=t.name),t.color!==void 0&&this.color!==void 0&&this.color.setHex(t.color),t.roughness!==void 0&&(this.roughness=t.roughness),t.metalness!==void 0&&(this.metalness=t.metalness),t.sheen!==void 0&&(this.sheen=t.sheen),t.sheenColor!==void 0&&(this.sheenColor=new Qt().setHex(t.sheenColor)),t.sheenRoughness!==void 0&&(this.sheenRoughness=t.sheenRoughness),t.emissive!==void 0&&this.emissive!==void 0&&this.emissive.setHex(t.emissive),t.specular!==void 0&&this.specular!==void 0&&this.specular.setHex(t.specular),t.specularIntensity!==void 0&&(this.specularIntensity=t.specularIntensity),t.specularColor!==void 0&&this.specularColor!==void 0&&this.specularColor.setHex(t.specularColor),t.shininess!==void 0&&(this.shininess=t.shininess),t.clearcoat!==void 0&&(this.clearcoat=t.clearcoat),t.clearcoatRoughness!==void 0&&(this.clearcoatRoughness=t.clearcoatRoughness),t.diffuseRoughness!==void 0&&(this.diffuseRoughness=t.diffuseRoughness),t.dispersion!==void 0&&(this.dispersion=t.dispersion),t.retroreflectivity!==void 0&&(this.retroreflectivity=t.retroreflectivity),t.iridescence!==void 0&&(this.iridescence=t.iridescence),t.iridescenceIOR!==void 0&&(this.iridescenceIOR=t.iridescenceIOR),t.iridescenceThicknessMinimum!==void 0&&(this.iridescenceThicknessMinimum=t.iridescenceThicknessMinimum),t.iridescenceThicknessMaximum!==void 0&&(this.iridescenceThicknessMaximum=t.iridescenceThicknessMaximum),t.iridescenceThicknessRange!==void 0&&(this.iridescenceThicknessMinimum=t.iridescenceThicknessRange[0],this.iridescenceThicknessMaximum=t.iridescenceThicknessRange[1]),t.transmission!==void 0&&(this.transmission=t.transmission),t.thickness!==void 0&&(this.thickness=t.thickness),t.attenuationDistance!==void 0&&(this.attenuationDistance=t.attenuationDistance),t.attenuationColor!==void 0&&this.attenuationColor!==void 0&&this.attenuationColor.setHex(t.attenuationColor),t.anisotropy!==void 0&&(this.anisotropy=t.anisotropy),t.anisotropyRotation!==void 0&&(this.anisotropyRotation=t.anisotropyRotation),t.fog!==void 0&&(this.fog=t.fog),t.flatShading!==void 0&&(this.flatShading=t.flatShading),t.blending!==void 0&&(this.blending=t.blending),t.combine!==void 0&&(this.combine=t.combine),t.side!==void 0&&(this.side=t.side),t.shadowSide!==void 0&&(this.shadowSide=t.shadowSide),t.opacity!==void 0&&(this.opacity=t.opacity),t.transparent!==void 0&&(this.transparent=t.transparent),t.alphaTest!==void 0&&(this.alphaTest=t.alphaTest),t.alphaHash!==void 0&&(this.alphaHash=t.alphaHash),t.depthFunc!==void 0&&(this.depthFunc=t.depthFunc),t.depthTest!==void 0&&(this.depthTest=t.depthTest),t.depthWrite!==void 0&&(this.depthWrite=t.depthWrite),t.colorWrite!==void 0&&(this.colorWrite=t.colorWrite),t.clippingPlanes!==void 0&&(this.clippingPlanes=t.clippingPlanes.map(n=>new Ln().fromJSON(n))),t.clipIntersection!==void 0&&(this.clipIntersection=t.clipIntersection),t.clipShadows!==void 0&&(this.clipShadows=t.clipShadows),t.depthPacking!==void 0&&(this.depthPacking=t.depthPacking),t.blendSrc!==void 0&&(this.blendSrc=t.blendSrc),t.blendDst!==void 0&&(this.blendDst=t.blendDst),t.blendEquation!==void 0&&(this.blendEquation=t.blendEquation),t.blendSrcAlpha!==void 0&&(this.blendSrcAlpha=t.blendSrcAlpha),t.blendDstAlpha!==void 0&&(this.blendDstAlpha=t.blendDstAlpha),t.blendEquationAlpha!==void 0&&(this.blendEquationAlpha=t.blendEquationAlpha),t.blendColor!==void 0&&this.blendColor!==void 0&&this.blendColor.setHex(t.blendColor),t.blendAlpha!==void 0&&(this.blendAlpha=t.blendAlpha),t.stencilWriteMask!==void 0&&(this.stencilWriteMask=t.stencilWriteMask),t.stencilFunc!==void 0&&(this.stencilFunc=t.stencilFunc),t.stencilRef!==void 0&&(this.stencilRef=t.stencilRef),t.stencilFuncMask!==void 0&&(this.stencilFuncMask=t.stencilFuncMask),t.stencilFail!==void 0&&(this.stencilFail=t.stencilFail),t.stencilZFail!==void 0&&(this.stencilZFail=t.stencilZFail),t.stencilZPass!==void 0&&(this.stencilZPass=t.stencilZPass),t.stencilWrite!==void 0&&(this.stencilWrite=t.stencilWrite),t.wireframe!==void 0&&(this.wireframe=t.wireframe),t.wireframeLinewidth!==void 0&&(this.wireframeLinewidth=t.wireframeLinewidth),t.wireframeLinecap!==void 0&&(this.wireframeLinecap=t.wireframeLinecap),t.wireframeLinejoin!==void 0&&(this.wireframeLinejoin=t.wireframeLinejoin),t.rotation!==void 0&&(this.rotation=t.rotation),t.linewidth!==void 0&&(this.linewidth=t.linewidth),t.linecap!==void 0&&(this.linecap=t.linecap),t.linejoin!==void 0&&(this.linejoin=t.linejoin),t.dashSize!==void 0&&(this.dashSize=t.dashSize),t.gapSize!==void 0&&(this.gapSize=t.gapSize),t.scale!==void 0&&(this.scale=t.scale),t.polygonOffset!==void 0&&(this.polygonOffset=t.polygonOffset),t.polygonOffsetFactor!==void 0&&(this.polygonOffsetFactor=t.polygonOffsetFactor),t.polygonOffsetUnits!==void 0&&(this.polygonOffsetUnits=t.polygonOffsetUnits),t.dithering!==void 0&&(this.dithering=t.dithering),t.alphaToCoverage!==void 0&&(this.alphaToCoverage=t.alphaToCoverage),t.premultipliedAlpha!==void 0&&(this.premultipliedAlpha=t.premultipliedAlpha),t.forceSinglePass!==void 0&&(this.forceSinglePass=t.forceSinglePass),t.allowOverride!==void 0&&(this.allowOverride=t.allowOverride),t.visible!==void 0&&(this.visible=t.visible),t.toneMapped!==void 0&&(this.toneMapped=t.toneMapped),t.userData!==void 0&&(this.userData=t.userData),t.vertexColors!==void 0&&(typeof t.vertexColors=="number"?this.vertexColors=t.vertexColors>0:this.vertexColors=t.vertexColors),t.size!==void 0&&(this.size=t.size),t.sizeAttenuation!==void 0&&(this.sizeAttenuation=t.sizeAttenuation),t.map!==void 0&&(this.map=e[t.map]||null),t.matcap!==void 0&&(this.matcap=e[t.matcap]||null),t.alphaMap!==void 0&&(this.alphaMap=e[t.alphaMap]||null),t.bumpMap!==void 0&&(this.bumpMap=e[t.bumpMap]||null),t.bumpScale!==void 0&&(this.bumpScale=t.bumpScale),t.normalMap!==void 0&&(this.normalMap=e[t.normalMap]||null),t.normalMapType!==void 0&&(this.normalMapType=t.normalMapType),t.normalScale!==void 0){let n=t.normalScale;Array.isArray(n)===!1&&(n=[n,n]),this.normalScale=new te().fromArray(n)}return t.displacementMap!==void 0&&(this.displacementMap=e[t.displacementMap]||null),t.displacementScale!==void 0&&(this.displacementScale=t.displacementScale),t.displacementBias!==void 0&&(this.displacementBias=t.displacementBias),t.roughnessMap!==void 0&&(this.roughnessMap=e[t.roughnessMap]||null),t.metalnessMap!==void 0&&(this.metalnessMap=e[t.metalnessMap]||null),t.emissiveMap!==void 0&&(this.emissiveMap=e[t.emissiveMap]||null),t.emissiveIntensity!==void 0&&(this.emissiveIntensity=t.emissiveIntensity),t.specularMap!==void 0&&(this.specularMap=e[t.specularMap]||null),t.specularIntensityMap!==void 0&&(this.specularIntensityMap=e[t.specularIntensityMap]||null),t.specularColorMap!==void 0&&(this.specularColorMap=e[t.specularColorMap]||null),t.envMap!==void 0&&(this.envMap=e[t.envMap]||null),t.envMapRotation!==void 0&&this.envMapRotation.fromArray(t.envMapRotation),t.envMapIntensity!==void 0&&(this.envMapIntensity=t.envMapIntensity),t.reflectivity!==void 0&&(this.reflectivity=t.reflectivity),t.refractionRatio!==void 0&&(this.refractionRatio=t.refractionRatio),t.lightMap!==void 0&&(this.lightMap=e[t.lightMap]||null),t.lightMapIntensity!==void 0&&(this.lightMapIntensity=t.lightMapIntensity),t.aoMap!==void 0&&(this.aoMap=e[t.aoMap]||null),t.aoMapIntensity!==void 0&&(this.aoMapIntensity=t.aoMapIntensity),t.gradientMap!==void 0&&(this.gradientMap=e[t.gradientMap]||null),t.clearcoatMap!==void 0&&(this.clearcoatMap=e[t.clearcoatMap]||null),t.clearcoatRoughnessMap!==void 0&&(this.clearcoatRoughnessMap=e[t.clearcoatRoughnessMap]||null),t.clearcoatNormalMap!==void 0&&(this.clearcoatNormalMap=e[t.clearcoatNormalMap]||null),t.clearcoatNormalScale!==void 0&&(this.clearcoatNormalScale=new te().fromArray(t.clearcoatNormalScale)),t.diffuseRoughnessMap!==void 0&&(this.diffuseRoughnessMap=e[t.diffuseRoughnessMap]||null),t.iridescenceMap!==void 0&&(this.iridescenceMap=e[t.iridescenceMap]||null),t.iridescenceThicknessMap!==void 0&&(this.iridescenceThicknessMap=e[t.iridescenceThicknessMap]||null),t.transmissionMap!==void 0&&(this.transmissionMap=e[t.transmissionMap]||null),t.thicknessMap!==void 0&&(this.thicknessMap=e[t.thicknessMap]||null),t.anisotropyMap!==void 0&&(this.anisotropyMap=e[t.anisotropyMap]||null),t.sheenColorMap!==void 0&&(this.sheenColorMap=e[t.sheenColorMap]||null),t.sheenRoughnessMap!==void 0&&(this.sheenRoughnessMap=e[t.sheenRoughnessMap]||null),this}clone(){return new this.constructor().copy(this)}copy(t){this.name=t.name,this.blending=t.blending,this.side=t.side,this.vertexColors=t.vertexColors,this.opacity=t.opacity,this.transparent=t.transparent,this.blendSrc=t.blendSrc,this.blendDst=t.blendDst,this.blendEquation=t.blendEquation,this.blendSrcAlpha=t.blendSrcAlpha,this.blendDstAlpha=t.blendDstAlpha,this.blendEquationAlpha=t.blendEquationAlpha,this.blendColor.copy(t.blendColor),this.blendAlpha=t.blendAlpha,this.depthFunc=t.depthFunc,this.depthTest=t.depthTest,this.depthWrite=t.depthWrite,this.stencilWriteMask=t.stencilWriteMask,this.stencilFunc=t.stencilFunc,this.stencilRef=t.stencilRef,this.stencilFuncMask=t.stencilFuncMask,this.stencilFail=t.stencilFail,this.stencilZFail=t.stencilZFail,this.stencilZPass=t.stencilZPass,this.stencilWrite=t.stencilWrite;let e=t.clippingPlanes,n=null;if(e!==null){let s=e.length;n=new Array(s);for(let r=0;r!==s;++r)n[r]=e[r].clone()}return this.clippingPlanes=n,this.clipIntersection=t.clipIntersection,this.clipShadows=t.clipShadows,this.shadowSide=t.shadowSide,this.colorWrite=t.colorWrite,this.precision=t.precision,this.polygonOffset=t.polygonOffset,this.polygonOffsetFactor=t.polygonOffsetFactor,this.polygonOffsetUnits=t.polygonOffsetUnits,this.dithering=t.dithering,this.alphaTest=t.alphaTest,this.alphaHash=t.alphaHash,this.alphaToCoverage=t.alphaToCoverage,this.premultipliedAlpha=t.premultipliedAlpha,this.forceSinglePass=t.forceSinglePass,this.allowOverride=t.allowOverride,this.visible=t.visible,this.toneMapped=t.toneMapped,this.userData=JSON.parse(JSON.stringify(t.userData)),this}dispose(){this.dispatchEvent({type:"dispose"})}set needsUpdate(t){t===!0&&this.version++}};var si=new V,Qc=new V,ko=new V,zo=new V,pa=class{constructor(t=new V,e=new V(0,0,-1)){this.origin=t,this.direction=e}set(t,e){return this.origin.copy(t),this.direction.copy(e),this}copy(t){return this.origin.copy(t.origin),this.direction.copy(t.direction),this}at(t,e){return e.copy(this.origin).addScaledVector(this.direction,t)}lookAt(t){return this.direction.copy(t).sub(this.origin).normalize(),this}recast(t){return this.origin.copy(this.at(t,si)),this}closestPointToPoint(t,e){e.subVectors(t,this.origin);let n=e.dot(this.direction);return n<0?e.copy(this.origin):e.copy(this.origin).addScaledVector(this.direction,n)}distanceToPoint(t){return Math.sqrt(this.distanceSqToPoint(t))}distanceSqToPoint(t){let e=si.subVectors(t,this.origin).dot(this.direction);return e<0?this.origin.distanceToSquared(t):(si.copy(this.origin).addScaledVector(this.direction,e),si.distanceToSquared(t))}distanceSqToSegment(t,e,n,s){Qc.copy(t).add(e).multiplyScalar(.5),ko.copy(e).sub(t).normalize(),zo.copy(this.origin).sub(Qc);let r=t.distanceTo(e)*.5,o=-this.direction.dot(ko),a=zo.dot(this.direction),l=-zo.dot(ko),c=zo.lengthSq(),h=Math.abs(1-o*o),d,u,f,m;if(h>0)if(d=o*l-a,u=o*a-l,m=r*h,d>=0)if(u>=-m)if(u<=m){let v=1/h;d*=v,u*=v,f=d*(d+o*u+2*a)+u*(o*d+u+2*l)+c}else u=r,d=Math.max(0,-(o*u+a)),f=-d*d+u*(u+2*l)+c;else u=-r,d=Math.max(0,-(o*u+a)),f=-d*d+u*(u+2*l)+c;else u<=-m?(d=Math.max(0,-(-o*r+a)),u=d>0?-r:Math.min(Math.max(-r,-l),r),f=-d*d+u*(u+2*l)+c):u<=m?(d=0,u=Math.min(Math.max(-r,-l),r),f=u*(u+2*l)+c):(d=Math.max(0,-(o*r+a)),u=d>0?r:Math.min(Math.max(-r,-l),r),f=-d*d+u*(u+2*l)+c);else u=o>0?-r:r,d=Math.max(0,-(o*u+a)),f=-d*d+u*(u+2*l)+c;return n&&n.copy(this.origin).addScaledVector(this.direction,d),s&&s.copy(Qc).addScaledVector(ko,u),f}intersectSphere(t,e){if(t.radius<0)return null;si.subVectors(t.center,this.origin);let n=si.dot(this.direction),s=si.dot(si)-n*n,r=t.radius*t.radius;if(s>r)return null;let o=Math.sqrt(r-s),a=n-o,l=n+o;return l<0?null:a<0?this.at(l,e):this.at(a,e)}intersectsSphere(t){return t.radius<0?!1:this.distanceSqToPoint(t.center)<=t.radius*t.radius}distanceToPlane(t){let e=t.normal.dot(this.direction);if(e===0)return t.distanceToPoint(this.origin)===0?0:null;let n=-(this.origin.dot(t.normal)+t.constant)/e;return n>=0?n:null}intersectPlane(t,e){let n=this.distanceToPlane(t);return n===null?null:this.at(n,e)}intersectsPlane(t){let e=t.distanceToPoint(this.origin);return e===0||t.normal.dot(this.direction)*e<0}intersectBox(t,e){let n,s,r,o,a,l,c=1/this.direction.x,h=1/this.direction.y,d=1/this.direction.z,u=this.origin;return c>=0?(n=(t.min.x-u.x)*c,s=(t.max.x-u.x)*c):(n=(t.max.x-u.x)*c,s=(t.min.x-u.x)*c),h>=0?(r=(t.min.y-u.y)*h,o=(t.max.y-u.y)*h):(r=(t.max.y-u.y)*h,o=(t.min.y-u.y)*h),n>o||r>s||((r>n||isNaN(n))&&(n=r),(o<s||isNaN(s))&&(s=o),d>=0?(a=(t.min.z-u.z)*d,l=(t.max.z-u.z)*d):(a=(t.max.z-u.z)*d,l=(t.min.z-u.z)*d),n>l||a>s)||((a>n||n!==n)&&(n=a),(l<s||s!==s)&&(s=l),s<0)?null:this.at(n>=0?n:s,e)}intersectsBox(t){return this.intersectBox(t,si)!==null}intersectTriangle(t,e,n,s,r){let o=this.origin,a=this.direction,l=a.x,c=a.y,h=a.z,d=t.x-o.x,u=t.y-o.y,f=t.z-o.z,m=e.x-o.x,v=e.y-o.y,p=e.z-o.z,g=n.x-o.x,M=n.y-o.y,I=n.z-o.z,w=Math.abs(l),C=Math.abs(c),T=Math.abs(h),_,b,k,N,U,z,Y,L,$,j,H,it;if(w>=C&&w>=T?(k=l,z=d,$=m,it=g,l>=0?(_=c,b=h,N=u,U=f,Y=v,L=p,j=M,H=I):(_=h,b=c,N=f,U=u,Y=p,L=v,j=I,H=M)):C>=T?(k=c,z=u,$=v,it=M,c>=0?(_=h,b=l,N=f,U=d,Y=p,L=m,j=I,H=g):(_=l,b=h,N=d,U=f,Y=m,L=p,j=g,H=I)):(k=h,z=f,$=p,it=I,h>=0?(_=l,b=c,N=d,U=u,Y=m,L=v,j=g,H=M):(_=c,b=l,N=u,U=d,Y=v,L=m,j=M,H=g)),k===0)return null;let X=_/k,tt=b/k,et=1/k,bt=N-X*z,Bt=U-tt*z,J=Y-X*$,gt=L-tt*$,vt=j-X*it,Ct=H-tt*it,_t=vt*gt-Ct*J,Gt=bt*Ct-Bt*vt,xe=J*Bt-gt*bt;if(s){if(_t<0||Gt<0||xe<0)return null}else if((_t<0||Gt<0||xe<0)&&(_t>0||Gt>0||xe>0))return null;let Lt=_t+Gt+xe;if(Lt===0)return null;let ie=et*(_t*z+Gt*$+xe*it);return(Lt>0?ie<0:ie>0)?null:this.at(ie/Lt,r)}applyMatrix4(t){return this.origin.applyMatrix4(t),this.direction.transformDirection(t),this}equals(t){return t.origin.equals(this.origin)&&t.direction.equals(this.direction)}clone(){return new this.constructor().copy(this)}},ma=class extends Hi{constructor(t){super(),this.isMeshBasicMaterial=!0,this.type="MeshBasicMaterial",this.color=new Qt(16777215),this.map=null,this.lightMap=null,this.lightMapIntensity=1,this.aoMap=null,this.aoMapIntensity=1,this.specularMap=null,this.alphaMap=null,this.envMap=null,this.envMapRotation=new bi,this.combine=fh,this.reflectivity=1,this.refractionRatio=.98,this.wireframe=!1,this.wireframeLinewidth=1,this.wireframeLinecap="round",this.wireframeLinejoin="round",this.fog=!0,this.setValues(t)}copy(t){return super.copy(t),this.color.copy(t.color),this.map=t.map,this.lightMap=t.lightMap,this.lightMapIntensity=t.lightMapIntensity,this.aoMap=t.aoMap,this.aoMapIntensity=t.aoMapIntensity,this.specularMap=t.specularMap,this.alphaMap=t.alphaMap,this.envMap=t.envMap,this.envMapRotation.copy(t.envMapRotation),this.combine=t.combine,this.reflectivity=t.reflectivity,this.refractionRatio=t.refractionRatio,this.wireframe=t.wireframe,this.wireframeLinewidth=t.wireframeLinewidth,this.wireframeLinecap=t.wireframeLinecap,this.wireframeLinejoin=t.wireframeLinejoin,this.fog=t.fog,this}},Cp=new ge,zi=new pa,Go=new Rs,Ip=new V,Vo=new V,Ho=new V,Wo=new V,th=new V,Xo=new V,Pp=new V,$o=new V,Sn=class extends Mn{constructor(t=new Nn,e=new ma){super(),this.isMesh=!0,this.type="Mesh",this.geometry=t,this.material=e,this.morphTargetDictionary=void 0,this.morphTargetInfluences=void 0,this.count=1,this.updateMorphTargets()}copy(t,e){return super.copy(t,e),t.morphTargetInfluences!==void 0?this.morphTargetInfluences=t.morphTargetInfluences.slice():this.morphTargetInfluences=void 0,t.morphTargetDictionary!==void 0?this.morphTargetDictionary=Object.assign({},t.morphTargetDictionary):this.morphTargetDictionary=void 0,this.material=Array.isArray(t.material)?t.material.slice():t.material,this.geometry=t.geometry,this}updateMorphTargets(){let e=this.geometry.morphAttributes,n=Object.keys(e);if(n.length>0){let s=e[n[0]];if(s!==void 0){this.morphTargetInfluences=[],this.morphTargetDictionary={};for(let r=0,o=s.length;r<o;r++){let a=s[r].name||String(r);this.morphTargetInfluences.push(0),this.morphTargetDictionary[a]=r}}}}getVertexPosition(t,e){let n=this.geometry,s=n.attributes.position,r=n.morphAttributes.position,o=n.morphTargetsRelative;e.fromBufferAttribute(s,t);let a=this.morphTargetInfluences;if(r&&a){Xo.set(0,0,0);for(let l=0,c=r.length;l<c;l++){let h=a[l],d=r[l];h!==0&&(th.fromBufferAttribute(d,t),o?Xo.addScaledVector(th,h):Xo.addScaledVector(th.sub(e),h))}e.add(Xo)}return e}intersectsFrustum(t){return t.intersectsObject(this)}raycast(t,e){let n=this.geometry,s=this.material,r=this.matrixWorld;s!==void 0&&(n.boundingSphere===null&&n.computeBoundingSphere(),Go.copy(n.boundingSphere),Go.applyMatrix4(r),zi.copy(t.ray).recast(t.near),!(Go.containsPoint(zi.origin)===!1&&(zi.intersectSphere(Go,Ip)===null||zi.origin.distanceToSquared(Ip)>(t.far-t.near)**2))&&(Cp.copy(r).invert(),zi.copy(t.ray).applyMatrix4(Cp),!(n.boundingBox!==null&&zi.intersectsBox(n.boundingBox)===!1)&&this._computeIntersections(t,e,zi)))}_computeIntersections(t,e,n){let s,r=this.geometry,o=this.material,a=r.index,l=r.attributes.position,c=r.attributes.uv,h=r.attributes.uv1,d=r.attributes.normal,u=r.groups,f=r.drawRange;if(a!==null)if(Array.isArray(o))for(let m=0,v=u.length;m<v;m++){let p=u[m],g=o[p.materialIndex],M=Math.max(p.start,f.start),I=Math.min(a.count,Math.min(p.start+p.count,f.start+f.count));for(let w=M,C=I;w<C;w+=3){let T=a.getX(w),_=a.getX(w+1),b=a.getX(w+2);s=qo(this,g,t,n,c,h,d,T,_,b),s&&(s.faceIndex=Math.floor(w/3),s.face.materialIndex=p.materialIndex,e.push(s))}}else{let m=Math.max(0,f.start),v=Math.min(a.count,f.start+f.count);for(let p=m,g=v;p<g;p+=3){let M=a.getX(p),I=a.getX(p+1),w=a.getX(p+2);s=qo(this,o,t,n,c,h,d,M,I,w),s&&(s.faceIndex=Math.floor(p/3),e.push(s))}}else if(l!==void 0)if(Array.isArray(o))for(let m=0,v=u.length;m<v;m++){let p=u[m],g=o[p.materialIndex],M=Math.max(p.start,f.start),I=Math.min(l.count,Math.min(p.start+p.count,f.start+f.count));for(let w=M,C=I;w<C;w+=3){let T=w,_=w+1,b=w+2;s=qo(this,g,t,n,c,h,d,T,_,b),s&&(s.faceIndex=Math.floor(w/3),s.face.materialIndex=p.materialIndex,e.push(s))}}else{let m=Math.max(0,f.start),v=Math.min(l.count,f.start+f.count);for(let p=m,g=v;p<g;p+=3){let M=p,I=p+1,w=p+2;s=qo(this,o,t,n,c,h,d,M,I,w),s&&(s.faceIndex=Math.floor(p/3),e.push(s))}}}};function xx(i,t,e,n,s,r,o,a){let l;if(t.side===Ke?l=n.intersectTriangle(o,r,s,!0,a):l=n.intersectTriangle(s,r,o,t.side===Xn,a),l===null)return null;$o.copy(a),$o.applyMatrix4(i.matrixWorld);let c=e.ray.origin.distanceTo($o);return c<e.near||c>e.far?null:{distance:c,point:$o.clone(),object:i}}function qo(i,t,e,n,s,r,o,a,l,c){i.getVertexPosition(a,Vo),i.getVertexPosition(l,Ho),i.getVertexPosition(c,Wo);let h=xx(i,t,e,n,Vo,Ho,Wo,Pp);if(h){let d=new V;Mi.getBarycoord(Pp,Vo,Ho,Wo,d),s&&(h.uv=Mi.getInterpolatedAttribute(s,a,l,c,d,new te)),r&&(h.uv1=Mi.getInterpolatedAttribute(r,a,l,c,d,new te)),o&&(h.normal=Mi.getInterpolatedAttribute(o,a,l,c,d,new V),h.normal.dot(n.direction)>0&&h.normal.multiplyScalar(-1));let u={a,b:l,c,normal:new V,materialIndex:0};Mi.getNormal(Vo,Ho,Wo,u.normal),h.face=u,h.barycoord=d}return h}var Cs=class extends Qe{constructor(t=null,e=1,n=1,s,r,o,a,l,c=Ne,h=Ne,d,u){super(null,o,a,l,c,h,s,r,d,u),this.isDataTexture=!0,this.image={data:t,width:e,height:n},this.generateMipmaps=!1,this.flipY=!1,this.unpackAlignment=1}};var Gi=new Rs,yx=new te(.5,.5),Yo=new V,Wi=class{constructor(t=new Ln,e=new Ln,n=new Ln,s=new Ln,r=new Ln,o=new Ln){this.planes=[t,e,n,s,r,o]}set(t,e,n,s,r,o){let a=this.planes;return a[0].copy(t),a[1].copy(e),a[2].copy(n),a[3].copy(s),a[4].copy(r),a[5].copy(o),this}copy(t){let e=this.planes;for(let n=0;n<6;n++)e[n].copy(t.planes[n]);return this}setFromProjectionMatrix(t,e=yn,n=!1){let s=this.planes,r=t.elements,o=r[0],a=r[1],l=r[2],c=r[3],h=r[4],d=r[5],u=r[6],f=r[7],m=r[8],v=r[9],p=r[10],g=r[11],M=r[12],I=r[13],w=r[14],C=r[15];if(s[0].setComponents(c-o,f-h,g-m,C-M).normalize(),s[1].setComponents(c+o,f+h,g+m,C+M).normalize(),s[2].setComponents(c+a,f+d,g+v,C+I).normalize(),s[3].setComponents(c-a,f-d,g-v,C-I).normalize(),n)s[4].setComponents(l,u,p,w).normalize(),s[5].setComponents(c-l,f-u,g-p,C-w).normalize();else if(s[4].setComponents(c-l,f-u,g-p,C-w).normalize(),e===yn)s[5].setComponents(c+l,f+u,g+p,C+w).normalize();else if(e===mr)s[5].setComponents(l,u,p,w).normalize();else throw new Error("THREE.Frustum.setFromProjectionMatrix(): Invalid coordinate system: "+e);return this}intersectsObject(t){if(t.boundingSphere!==void 0)t.boundingSphere===null&&t.computeBoundingSphere(),Gi.copy(t.boundingSphere).applyMatrix4(t.matrixWorld);else{let e=t.geometry;e.boundingSphere===null&&e.computeBoundingSphere(),Gi.copy(e.boundingSphere).applyMatrix4(t.matrixWorld)}return this.intersectsSphere(Gi)}intersectsSprite(t){Gi.center.set(0,0,0);let e=yx.distanceTo(t.center);return Gi.radius=.7071067811865476+e,Gi.applyMatrix4(t.matrixWorld),this.intersectsSphere(Gi)}intersectsSphere(t){let e=this.planes,n=t.center,s=-t.radius;for(let r=0;r<6;r++)if(e[r].distanceToPoint(n)<s)return!1;return!0}intersectsBox(t){let e=this.planes;for(let n=0;n<6;n++){let s=e[n];if(Yo.x=s.normal.x>0?t.max.x:t.min.x,Yo.y=s.normal.y>0?t.max.y:t.min.y,Yo.z=s.normal.z>0?t.max.z:t.min.z,s.distanceToPoint(Yo)<0)return!1}return!0}containsPoint(t){let e=this.planes;for(let n=0;n<6;n++)if(e[n].distanceToPoint(t)<0)return!1;return!0}clone(){return new this.constructor().copy(this)}},Lp=new ge,ga=class i{constructor(){this.coordinateSystem=yn,this._frustums=[],this._count=0}setFromArrayCamera(t){let e=t.cameras,n=this._frustums;for(let s=0;s<e.length;s++){let r=e[s];Lp.multiplyMatrices(r.projectionMatrix,r.matrixWorldInverse),n[s]===void 0&&(n[s]=new Wi),n[s].setFromProjectionMatrix(Lp,r.coordinateSystem,r.reversedDepth)}return this._count=e.length,this}getFrustum(t){return this._frustums[t]}intersectsObject(t){let e=this._frustums;for(let n=0;n<this._count;n++)if(e[n].intersectsObject(t))return!0;return!1}intersectsSprite(t){let e=this._frustums;for(let n=0;n<this._count;n++)if(e[n].intersectsSprite(t))return!0;return!1}intersectsSphere(t){let e=this._frustums;for(let n=0;n<this._count;n++)if(e[n].intersectsSphere(t))return!0;return!1}intersectsBox(t){let e=this._frustums;for(let n=0;n<this._count;n++)if(e[n].intersectsBox(t))return!0;return!1}containsPoint(t){let e=this._frustums;for(let n=0;n<this._count;n++)if(e[n].containsPoint(t))return!0;return!1}copy(t){this.coordinateSystem=t.coordinateSystem;let e=this._frustums,n=t._frustums;for(let s=0;s<t._count;s++)e[s]===void 0&&(e[s]=new Wi),e[s].copy(n[s]);return this._count=t._count,this}clone(){return new i().copy(this)}};var Sr=class extends Qe{constructor(t=[],e=qi,n,s,r,o,a,l,c,h){super(t,e,n,s,r,o,a,l,c,h),this.isCubeTexture=!0,this.flipY=!1}get images(){return this.image}set images(t){this.image=t}};var ai=class extends Qe{constructor(t,e,n=Dn,s,r,o,a=Ne,l=Ne,c,h=oi,d=1){if(h!==oi&&h!==ci)throw new Error("THREE.DepthTexture: format must be either THREE.DepthFormat or THREE.DepthStencilFormat");let u={width:t,height:e,depth:d};super(u,s,r,o,a,l,h,n,c),this.isDepthTexture=!0,this.flipY=!1,this.generateMipmaps=!1,this.compareFunction=null}copy(t){return super.copy(t),this.source=new Es(Object.assign({},t.image)),this.compareFunction=t.compareFunction,this}toJSON(t){let e=super.toJSON(t);return e.compareFunction=this.compareFunction,e}},br=class extends ai{constructor(t,e=Dn,n=qi,s,r,o=Ne,a=Ne,l,c=oi){let h={width:t,height:t,depth:1},d=[h,h,h,h,h,h];super(t,t,e,n,s,r,o,a,l,c),this.image=d,this.isCubeDepthTexture=!0,this.isCubeTexture=!0}get images(){return this.image}set images(t){this.image=t}},wr=class extends Qe{constructor(t=null){super(),this.sourceTexture=t,this.isExternalTexture=!0}copy(t){return super.copy(t),this.sourceTexture=t.sourceTexture,this}},Is=class i extends Nn{constructor(t=1,e=1,n=1,s=1,r=1,o=1){super(),this.type="BoxGeometry",this.parameters={width:t,height:e,depth:n,widthSegments:s,heightSegments:r,depthSegments:o};let a=this;s=Math.floor(s),r=Math.floor(r),o=Math.floor(o);let l=[],c=[],h=[],d=[],u=0,f=0;m("z","y","x",-1,-1,n,e,t,o,r,0),m("z","y","x",1,-1,n,e,-t,o,r,1),m("x","z","y",1,1,t,n,e,s,o,2),m("x","z","y",1,-1,t,n,-e,s,o,3),m("x","y","z",1,-1,t,e,n,s,r,4),m("x","y","z",-1,-1,t,e,-n,s,r,5),this.setIndex(l),this.setAttribute("position",new vn(c,3)),this.setAttribute("normal",new vn(h,3)),this.setAttribute("uv",new vn(d,2));function m(v,p,g,M,I,w,C,T,_,b,k){let N=w/_,U=C/b,z=w/2,Y=C/2,L=T/2,$=_+1,j=b+1,H=0,it=0,X=new V;for(let tt=0;tt<j;tt++){let et=tt*U-Y;for(let bt=0;bt<$;bt++){let Bt=bt*N-z;X[v]=Bt*M,X[p]=et*I,X[g]=L,c.push(X.x,X.y,X.z),X[v]=0,X[p]=0,X[g]=T>0?1:-1,h.push(X.x,X.y,X.z),d.push(bt/_),d.push(1-tt/b),H+=1}}for(let tt=0;tt<b;tt++)for(let et=0;et<_;et++){let bt=u+et+$*tt,Bt=u+et+$*(tt+1),J=u+(et+1)+$*(tt+1),gt=u+(et+1)+$*tt;l.push(bt,Bt,gt),l.push(Bt,J,gt),it+=6}a.addGroup(f,it,k),f+=it,u+=H}}copy(t){return super.copy(t),this.parameters=Object.assign({},t.parameters),this}static fromJSON(t){return new i(t.width,t.height,t.depth,t.widthSegments,t.heightSegments,t.depthSegments)}};var Ar=class i extends Nn{constructor(t=1,e=1,n=1,s=1){super(),this.type="PlaneGeometry",this.parameters={width:t,height:e,widthSegments:n,heightSegments:s};let r=t/2,o=e/2,a=Math.floor(n),l=Math.floor(s),c=a+1,h=l+1,d=t/a,u=e/l,f=[],m=[],v=[],p=[];for(let g=0;g<h;g++){let M=g*u-o;for(let I=0;I<c;I++){let w=I*d-r;m.push(w,-M,0),v.push(0,0,1),p.push(I/a),p.push(1-g/l)}}for(let g=0;g<l;g++)for(let M=0;M<a;M++){let I=M+c*g,w=M+c*(g+1),C=M+1+c*(g+1),T=M+1+c*g;f.push(I,w,T),f.push(w,C,T)}this.setIndex(f),this.setAttribute("position",new vn(m,3)),this.setAttribute("normal",new vn(v,3)),this.setAttribute("uv",new vn(p,2))}copy(t){return super.copy(t),this.parameters=Object.assign({},t.parameters),this}static fromJSON(t){return new i(t.width,t.height,t.widthSegments,t.heightSegments)}};function Zi(i){let t={};for(let e in i){t[e]={};for(let n in i[e]){let s=i[e][n];if(Np(s))s.isRenderTargetTexture?(Nt("UniformsUtils: Textures of render targets cannot be cloned via cloneUniforms() or mergeUniforms()."),t[e][n]=null):t[e][n]=s.clone();else if(Array.isArray(s))if(Np(s[0])){let r=[];for(let o=0,a=s.length;o<a;o++)r[o]=s[o].clone();t[e][n]=r}else t[e][n]=s.slice();else t[e][n]=s}}return t}function We(i){let t={};for(let e=0;e<i.length;e++){let n=Zi(i[e]);for(let s in n)t[s]=n[s]}return t}function Np(i){return i&&(i.isColor||i.isMatrix3||i.isMatrix4||i.isVector2||i.isVector3||i.isVector4||i.isTexture||i.isQuaternion)}function vx(i){let t=[];for(let e=0;e<i.length;e++)t.push(i[e].clone());return t}function Uh(i){let t=i.getRenderTarget();return t===null?i.outputColorSpace:t.isXRRenderTarget===!0?t.texture.colorSpace:Zt.workingColorSpace}var bm={clone:Zi,merge:We},Mx=`void main() {
	gl_Position = projectionMatrix * modelViewMatrix * vec4( position, 1.0 );
}`,Sx=`void main() {
	gl_FragColor = vec4( 1.0, 0.0, 0.0, 1.0 );
}`,Wn=class extends Hi{constructor(t){super(),this.isShaderMaterial=!0,this.type="ShaderMaterial",this.defines={},this.uniforms={},this.uniformsGroups=[],this.vertexShader=Mx,this.fragmentShader=Sx,this.linewidth=1,this.wireframe=!1,this.wireframeLinewidth=1,this.fog=!1,this.lights=!1,this.clipping=!1,this.forceSinglePass=!0,this.extensions={clipCullDistance:!1,multiDraw:!1},this.defaultAttributeValues={color:[1,1,1],uv:[0,0],uv1:[0,0]},this.index0AttributeName=void 0,this.uniformsNeedUpdate=!1,this.glslVersion=null,t!==void 0&&this.setValues(t)}copy(t){return super.copy(t),this.fragmentShader=t.fragmentShader,this.vertexShader=t.vertexShader,this.uniforms=Zi(t.uniforms),this.uniformsGroups=vx(t.uniformsGroups),this.defines=Object.assign({},t.defines),this.wireframe=t.wireframe,this.wireframeLinewidth=t.wireframeLinewidth,this.fog=t.fog,this.lights=t.lights,this.clipping=t.clipping,this.extensions=Object.assign({},t.extensions),this.glslVersion=t.glslVersion,this.defaultAttributeValues=Object.assign({},t.defaultAttributeValues),this.index0AttributeName=t.index0AttributeName,this.uniformsNeedUpdate=t.uniformsNeedUpdate,this}toJSON(t){let e=super.toJSON(t);e.glslVersion=this.glslVersion,e.uniforms={};for(let s in this.uniforms){let o=this.uniforms[s].value;o&&o.isTexture?e.uniforms[s]={type:"t",value:o.toJSON(t).uuid}:o&&o.isColor?e.uniforms[s]={type:"c",value:o.getHex()}:o&&o.isVector2?e.uniforms[s]={type:"v2",value:o.toArray()}:o&&o.isVector3?e.uniforms[s]={type:"v3",value:o.toArray()}:o&&o.isVector4?e.uniforms[s]={type:"v4",value:o.toArray()}:o&&o.isMatrix3?e.uniforms[s]={type:"m3",value:o.toArray()}:o&&o.isMatrix4?e.uniforms[s]={type:"m4",value:o.toArray()}:e.uniforms[s]={value:o}}Object.keys(this.defines).length>0&&(e.defines=this.defines),e.vertexShader=this.vertexShader,e.fragmentShader=this.fragmentShader,e.lights=this.lights,e.clipping=this.clipping;let n={};for(let s in this.extensions)this.extensions[s]===!0&&(n[s]=!0);return Object.keys(n).length>0&&(e.extensions=n),e}fromJSON(t,e){if(super.fromJSON(t,e),t.uniforms!==void 0)for(let n in t.uniforms){let s=t.uniforms[n];switch(this.uniforms[n]={},s.type){case"t":this.uniforms[n].value=e[s.value]||null;break;case"c":this.uniforms[n].value=new Qt().setHex(s.value);break;case"v2":this.uniforms[n].value=new te().fromArray(s.value);break;case"v3":this.uniforms[n].value=new V().fromArray(s.value);break;case"v4":this.uniforms[n].value=new me().fromArray(s.value);break;case"m3":this.uniforms[n].value=new Ot().fromArray(s.value);break;case"m4":this.uniforms[n].value=new ge().fromArray(s.value);break;default:this.uniforms[n].value=s.value}}if(t.defines!==void 0&&(this.defines=t.defines),t.vertexShader!==void 0&&(this.vertexShader=t.vertexShader),t.fragmentShader!==void 0&&(this.fragmentShader=t.fragmentShader),t.glslVersion!==void 0&&(this.glslVersion=t.glslVersion),t.extensions!==void 0)for(let n in t.extensions)this.extensions[n]=t.extensions[n];return t.lights!==void 0&&(this.lights=t.lights),t.clipping!==void 0&&(this.clipping=t.clipping),this}},Ps=class extends Wn{constructor(t){super(t),this.isRawShaderMaterial=!0,this.type="RawShaderMaterial"}};var _a=class extends Hi{constructor(t){super(),this.isMeshDepthMaterial=!0,this.type="MeshDepthMaterial",this.depthPacking=lm,this.map=null,this.alphaMap=null,this.displacementMap=null,this.displacementScale=1,this.displacementBias=0,this.wireframe=!1,this.wireframeLinewidth=1,this.setValues(t)}copy(t){return super.copy(t),this.depthPacking=t.depthPacking,this.map=t.map,this.alphaMap=t.alphaMap,this.displacementMap=t.displacementMap,this.displacementScale=t.displacementScale,this.displacementBias=t.displacementBias,this.wireframe=t.wireframe,this.wireframeLinewidth=t.wireframeLinewidth,this}},xa=class extends Hi{constructor(t){super(),this.isMeshDistanceMaterial=!0,this.type="MeshDistanceMaterial",this.map=null,this.alphaMap=null,this.displacementMap=null,this.displacementScale=1,this.displacementBias=0,this.setValues(t)}copy(t){return super.copy(t),this.map=t.map,this.alphaMap=t.alphaMap,this.displacementMap=t.displacementMap,this.displacementScale=t.displacementScale,this.displacementBias=t.displacementBias,this}};function Ms(i,t){return!i||i.constructor===t?i:typeof t.BYTES_PER_ELEMENT=="number"?new t(i):Array.prototype.slice.call(i)}function Zo(i){return i!==void 0&&i.inTangents!==void 0&&i.outTangents!==void 0}var Ai=class{constructor(t,e,n,s){this.parameterPositions=t,this._cachedIndex=0,this.resultBuffer=s!==void 0?s:new e.constructor(n),this.sampleValues=e,this.valueSize=n,this.settings=null,this.DefaultSettings_={}}evaluate(t){let e=this.parameterPositions,n=this._cachedIndex,s=e[n],r=e[n-1];n:{t:{let o;e:{i:if(!(t<s)){for(let a=n+2;;){if(s===void 0){if(t<r)break i;return n=e.length,this._cachedIndex=n,this.copySampleValue_(n-1)}if(n===a)break;if(r=s,s=e[++n],t<s)break t}o=e.length;break e}if(!(t>=r)){let a=e[1];t<a&&(n=2,r=a);for(let l=n-2;;){if(r===void 0)return this._cachedIndex=0,this.copySampleValue_(0);if(n===l)break;if(s=r,r=e[--n-1],t>=r)break t}o=n,n=0;break e}break n}for(;n<o;){let a=n+o>>>1;t<e[a]?o=a:n=a+1}if(s=e[n],r=e[n-1],r===void 0)return this._cachedIndex=0,this.copySampleValue_(0);if(s===void 0)return n=e.length,this._cachedIndex=n,this.copySampleValue_(n-1)}this._cachedIndex=n,this.intervalChanged_(n,r,s)}return this.interpolate_(n,r,t,s)}getSettings_(){return this.settings||this.DefaultSettings_}copySampleValue_(t){let e=this.resultBuffer,n=this.sampleValues,s=this.valueSize,r=t*s;for(let o=0;o!==s;++o)e[o]=n[r+o];return e}interpolate_(){throw new Error("THREE.Interpolant: Call to abstract method.")}intervalChanged_(){}},ya=class extends Ai{constructor(t,e,n,s){super(t,e,n,s),this._weightPrev=-0,this._offsetPrev=-0,this._weightNext=-0,this._offsetNext=-0,this.DefaultSettings_={endingStart:nh,endingEnd:nh}}intervalChanged_(t,e,n){let s=this.parameterPositions,r=t-2,o=t+1,a=s[r],l=s[o];if(a===void 0)switch(this.getSettings_().endingStart){case ih:r=t,a=2*e-n;break;case sh:r=s.length-2,a=e+s[r]-s[r+1];break;default:r=t,a=n}if(l===void 0)switch(this.getSettings_().endingEnd){case ih:o=t,l=2*n-e;break;case sh:o=1,l=n+s[1]-s[0];break;default:o=t-1,l=e}let c=(n-e)*.5,h=this.valueSize;this._weightPrev=c/(e-a),this._weightNext=c/(l-n),this._offsetPrev=r*h,this._offsetNext=o*h}interpolate_(t,e,n,s){let r=this.resultBuffer,o=this.sampleValues,a=this.valueSize,l=t*a,c=l-a,h=this._offsetPrev,d=this._offsetNext,u=this._weightPrev,f=this._weightNext,m=(n-e)/(s-e),v=m*m,p=v*m,g=-u*p+2*u*v-u*m,M=(1+u)*p+(-1.5-2*u)*v+(-.5+u)*m+1,I=(-1-f)*p+(1.5+f)*v+.5*m,w=f*p-f*v;for(let C=0;C!==a;++C)r[C]=g*o[h+C]+M*o[c+C]+I*o[l+C]+w*o[d+C];return r}},va=class extends Ai{constructor(t,e,n,s){super(t,e,n,s)}interpolate_(t,e,n,s){let r=this.resultBuffer,o=this.sampleValues,a=this.valueSize,l=t*a,c=l-a,h=(n-e)/(s-e),d=1-h;for(let u=0;u!==a;++u)r[u]=o[c+u]*d+o[l+u]*h;return r}},Ma=class extends Ai{constructor(t,e,n,s){super(t,e,n,s)}interpolate_(t){return this.copySampleValue_(t-1)}},Sa=class extends Ai{interpolate_(t,e,n,s){let r=this.resultBuffer,o=this.sampleValues,a=this.valueSize,l=t*a,c=l-a,h=this.inTangents,d=this.outTangents;if(!h||!d){let m=(n-e)/(s-e),v=1-m;for(let p=0;p!==a;++p)r[p]=o[c+p]*v+o[l+p]*m;return r}let u=a*2,f=t-1;for(let m=0;m!==a;++m){let v=o[c+m],p=o[l+m],g=f*u+m*2,M=d[g],I=d[g+1],w=t*u+m*2,C=h[w],T=h[w+1],_=wx(n,e,M,C,s);r[m]=wm(_,v,I,T,p)}return r}};function wm(i,t,e,n,s){let r=1-i;return r*r*r*t+3*r*r*i*e+3*r*i*i*n+i*i*i*s}function bx(i,t,e,n,s){let r=1-i;return 3*r*r*(e-t)+6*r*i*(n-e)+3*i*i*(s-n)}function wx(i,t,e,n,s){let r=(i-t)/(s-t);for(let o=0;o<8;o++){let a=wm(r,t,e,n,s)-i;if(Math.abs(a)<1e-10)break;let l=bx(r,t,e,n,s);if(Math.abs(l)<1e-10)break;r=Math.max(0,Math.min(1,r-a/l))}return r}var an=class{constructor(t,e,n,s){if(t===void 0)throw new Error("THREE.KeyframeTrack: track name is undefined");if(e===void 0||e.length===0)throw new Error("THREE.KeyframeTrack: no keyframes in track named "+t);this.name=t,this.times=Ms(e,this.TimeBufferType),this.values=Ms(n,this.ValueBufferType),this.setInterpolation(s||this.DefaultInterpolation)}static toJSON(t){let e=t.constructor,n;if(e.toJSON!==this.toJSON)n=e.toJSON(t);else{n={name:t.name,times:Ms(t.times,Array),values:Ms(t.values,Array)};let s=t.getInterpolation();s!==t.DefaultInterpolation&&(n.interpolation=s),Zo(t.settings)&&(n.settings={inTangents:Ms(t.settings.inTangents,Array),outTangents:Ms(t.settings.outTangents,Array)})}return n.type=t.ValueTypeName,n}InterpolantFactoryMethodDiscrete(t){return new Ma(this.times,this.values,this.getValueSize(),t)}InterpolantFactoryMethodLinear(t){return new va(this.times,this.values,this.getValueSize(),t)}InterpolantFactoryMethodSmooth(t){return new ya(this.times,this.values,this.getValueSize(),t)}InterpolantFactoryMethodBezier(t){let e=new Sa(this.times,this.values,this.getValueSize(),t);return this.settings&&(e.inTangents=this.settings.inTangents,e.outTangents=this.settings.outTangents),e}setInterpolation(t){let e;switch(t){case dr:e=this.InterpolantFactoryMethodDiscrete;break;case ca:e=this.InterpolantFactoryMethodLinear;break;case jo:e=this.InterpolantFactoryMethodSmooth;break;case eh:e=this.InterpolantFactoryMethodBezier;break}if(e===void 0){let n="unsupported interpolation for "+this.ValueTypeName+" keyframe track named "+this.name;if(this.createInterpolant===void 0)if(t!==this.DefaultInterpolation)this.setInterpolation(this.DefaultInterpolation);else throw new Error(n);return Nt("KeyframeTrack:",n),this}return this.createInterpolant=e,this}getInterpolation(){switch(this.createInterpolant){case this.InterpolantFactoryMethodDiscrete:return dr;case this.InterpolantFactoryMethodLinear:return ca;case this.InterpolantFactoryMethodSmooth:return jo;case this.InterpolantFactoryMethodBezier:return eh}}getValueSize(){return this.values.length/this.times.length}shift(t){if(t!==0){let e=this.times;for(let n=0,s=e.length;n!==s;++n)e[n]+=t;Zo(this.settings)&&(Dp(this.settings.inTangents,t),Dp(this.settings.outTangents,t))}return this}scale(t){if(t!==1){let e=this.times;for(let n=0,s=e.length;n!==s;++n)e[n]*=t;Zo(this.settings)&&(Up(this.settings.inTangents,t),Up(this.settings.outTangents,t))}return this}trim(t,e){let n=this.times,s=n.length,r=0,o=s-1;for(;r!==s&&n[r]<t;)++r;for(;o!==-1&&n[o]>e;)--o;if(++o,r!==0||o!==s){r>=o&&(o=Math.max(o,1),r=o-1);let a=this.getValueSize();this.times=n.slice(r,o),this.values=this.values.slice(r*a,o*a)}return this}validate(){let t=!0,e=this.getValueSize();e-Math.floor(e)!==0&&(Ut("KeyframeTrack: Invalid value size in track.",this),t=!1);let n=this.times,s=this.values,r=n.length;r===0&&(Ut("KeyframeTrack: Track is empty.",this),t=!1);let o=null;for(let a=0;a!==r;a++){let l=n[a];if(typeof l=="number"&&isNaN(l)){Ut("KeyframeTrack: Time is not a valid number.",this,a,l),t=!1;break}if(o!==null&&o>l){Ut("KeyframeTrack: Out of order keys.",this,a,l,o),t=!1;break}o=l}if(s!==void 0&&j_(s))for(let a=0,l=s.length;a!==l;++a){let c=s[a];if(isNaN(c)){Ut("KeyframeTrack: Value is not a valid number.",this,a,c),t=!1;break}}return t}optimize(){let t=this.times.slice(),e=this.values.slice(),n=this.getValueSize(),s=this.getInterpolation()===jo,r=t.length-1,o=1;for(let a=1;a<r;++a){let l=!1,c=t[a],h=t[a+1];if(c!==h&&(a!==1||c!==t[0]))if(s)l=!0;else{let d=a*n,u=d-n,f=d+n;for(let m=0;m!==n;++m){let v=e[d+m];if(v!==e[u+m]||v!==e[f+m]){l=!0;break}}}if(l){if(a!==o){t[o]=t[a];let d=a*n,u=o*n;for(let f=0;f!==n;++f)e[u+f]=e[d+f]}++o}}if(r>0){t[o]=t[r];for(let a=r*n,l=o*n,c=0;c!==n;++c)e[l+c]=e[a+c];++o}return o!==t.length?(this.times=t.slice(0,o),this.values=e.slice(0,o*n)):(this.times=t,this.values=e),this}clone(){let t=this.times.slice(),e=this.values.slice(),n=this.constructor,s=new n(this.name,t,e);return s.createInterpolant=this.createInterpolant,Zo(this.settings)&&(s.settings={inTangents:this.settings.inTangents.slice(),outTangents:this.settings.outTangents.slice()}),s}};function Dp(i,t){for(let e=0,n=i.length;e!==n;e+=2)i[e]+=t}function Up(i,t){for(let e=0,n=i.length;e!==n;e+=2)i[e]*=t}an.prototype.ValueTypeName="";an.prototype.TimeBufferType=Float32Array;an.prototype.ValueBufferType=Float32Array;an.prototype.DefaultInterpolation=ca;var Ei=class extends an{constructor(t,e,n){super(t,e,n)}};Ei.prototype.ValueTypeName="bool";Ei.prototype.ValueBufferType=Array;Ei.prototype.DefaultInterpolation=dr;Ei.prototype.InterpolantFactoryMethodLinear=void 0;Ei.prototype.InterpolantFactoryMethodSmooth=void 0;var ba=class extends an{constructor(t,e,n,s){super(t,e,n,s)}};ba.prototype.ValueTypeName="color";var wa=class extends an{constructor(t,e,n,s){super(t,e,n,s)}};wa.prototype.ValueTypeName="number";var Aa=class extends Ai{constructor(t,e,n,s){super(t,e,n,s)}interpolate_(t,e,n,s){let r=this.resultBuffer,o=this.sampleValues,a=this.valueSize,l=(n-e)/(s-e),c=t*a;for(let h=c+a;c!==h;c+=4)Hn.slerpFlat(r,0,o,c-a,o,c,l);return r}},Er=class extends an{constructor(t,e,n,s){super(t,e,n,s)}InterpolantFactoryMethodLinear(t){return new Aa(this.times,this.values,this.getValueSize(),t)}};Er.prototype.ValueTypeName="quaternion";Er.prototype.InterpolantFactoryMethodSmooth=void 0;var Ti=class extends an{constructor(t,e,n){super(t,e,n)}};Ti.prototype.ValueTypeName="string";Ti.prototype.ValueBufferType=Array;Ti.prototype.DefaultInterpolation=dr;Ti.prototype.InterpolantFactoryMethodLinear=void 0;Ti.prototype.InterpolantFactoryMethodSmooth=void 0;var Ea=class extends an{constructor(t,e,n,s){super(t,e,n,s)}};Ea.prototype.ValueTypeName="vector";var Ta=class{constructor(t,e,n){let s=this,r=!1,o=0,a=0,l,c=[];this.onStart=void 0,this.onLoad=t,this.onProgress=e,this.onError=n,this._abortController=null,this.itemStart=function(h){a++,r===!1&&s.onStart!==void 0&&s.onStart(h,o,a),r=!0},this.itemEnd=function(h){o++,s.onProgress!==void 0&&s.onProgress(h,o,a),o===a&&(r=!1,s.onLoad!==void 0&&s.onLoad())},this.itemError=function(h){s.onError!==void 0&&s.onError(h)},this.resolveURL=function(h){return h=h.normalize("NFC"),l?l(h):h},this.setURLModifier=function(h){return l=h,this},this.addHandler=function(h,d){return c.push(h,d),this},this.removeHandler=function(h){let d=c.indexOf(h);return d!==-1&&c.splice(d,2),this},this.getHandler=function(h){for(let d=0,u=c.length;d<u;d+=2){let f=c[d],m=c[d+1];if(f.global&&(f.lastIndex=0),f.test(h))return m}return null},this.abort=function(){return this.abortController.abort(),this._abortController=null,this}}get abortController(){return this._abortController||(this._abortController=new AbortController),this._abortController}},Am=new Ta,Ra=class{constructor(t){this.manager=t!==void 0?t:Am,this.crossOrigin="anonymous",this.withCredentials=!1,this.path="",this.resourcePath="",this.requestHeader={},this.priority="auto",this.cache="default",typeof __THREE_DEVTOOLS__<"u"&&__THREE_DEVTOOLS__.dispatchEvent(new CustomEvent("observe",{detail:this}))}load(){}loadAsync(t,e){let n=this;return new Promise(function(s,r){n.load(t,s,e,r)})}parse(){}setCrossOrigin(t){return this.crossOrigin=t,this}setWithCredentials(t){return this.withCredentials=t,this}setPath(t){return this.path=t,this}setResourcePath(t){return this.resourcePath=t,this}setRequestHeader(t){return this.requestHeader=t,this}setPriority(t){return this.priority=t,this}setCache(t){return this.cache=t,this}abort(){return this}};Ra.DEFAULT_MATERIAL_NAME="__DEFAULT";var Jo=new V,Ko=new Hn,zn=new V,Tr=class extends Mn{constructor(){super(),this.isCamera=!0,this.type="Camera",this.matrixWorldInverse=new ge,this.projectionMatrix=new ge,this.projectionMatrixInverse=new ge,this.coordinateSystem=yn,this._reversedDepth=!1}get reversedDepth(){return this._reversedDepth}copy(t,e){return super.copy(t,e),this.matrixWorldInverse.copy(t.matrixWorldInverse),this.projectionMatrix.copy(t.projectionMatrix),this.projectionMatrixInverse.copy(t.projectionMatrixInverse),this.coordinateSystem=t.coordinateSystem,this}getWorldDirection(t){return super.getWorldDirection(t).negate()}updateMatrixWorld(t){super.updateMatrixWorld(t),this.matrixWorld.decompose(Jo,Ko,zn),zn.x===1&&zn.y===1&&zn.z===1?this.matrixWorldInverse.copy(this.matrixWorld).invert():this.matrixWorldInverse.compose(Jo,Ko,zn.set(1,1,1)).invert()}updateWorldMatrix(t,e,n=!1){super.updateWorldMatrix(t,e,n),this.matrixWorld.decompose(Jo,Ko,zn),zn.x===1&&zn.y===1&&zn.z===1?this.matrixWorldInverse.copy(this.matrixWorld).invert():this.matrixWorldInverse.compose(Jo,Ko,zn.set(1,1,1)).invert()}clone(){return new this.constructor().copy(this)}},vi=new V,Op=new te,Fp=new te,rn=class extends Tr{constructor(t=50,e=1,n=.1,s=2e3){super(),this.isPerspectiveCamera=!0,this.type="PerspectiveCamera",this.fov=t,this.zoom=1,this.near=n,this.far=s,this.focus=10,this.aspect=e,this.view=null,this.filmGauge=35,this.filmOffset=0,this.updateProjectionMatrix()}copy(t,e){return super.copy(t,e),this.fov=t.fov,this.zoom=t.zoom,this.near=t.near,this.far=t.far,this.focus=t.focus,this.aspect=t.aspect,this.view=t.view===null?null:Object.assign({},t.view),this.filmGauge=t.filmGauge,this.filmOffset=t.filmOffset,this}setFocalLength(t){let e=.5*this.getFilmHeight()/t;this.fov=ha*2*Math.atan(e),this.updateProjectionMatrix()}getFocalLength(){let t=Math.tan(Dc*.5*this.fov);return .5*this.getFilmHeight()/t}getEffectiveFOV(){return ha*2*Math.atan(Math.tan(Dc*.5*this.fov)/this.zoom)}getFilmWidth(){return this.filmGauge*Math.min(this.aspect,1)}getFilmHeight(){return this.filmGauge/Math.max(this.aspect,1)}getViewBounds(t,e,n){vi.set(-1,-1,.5).applyMatrix4(this.projectionMatrixInverse),e.set(vi.x,vi.y).multiplyScalar(-t/vi.z),vi.set(1,1,.5).applyMatrix4(this.projectionMatrixInverse),n.set(vi.x,vi.y).multiplyScalar(-t/vi.z)}getViewSize(t,e){return this.getViewBounds(t,Op,Fp),e.subVectors(Fp,Op)}setViewOffset(t,e,n,s,r,o){this.aspect=t/e,this.view===null&&(this.view={enabled:!0,fullWidth:1,fullHeight:1,offsetX:0,offsetY:0,width:1,height:1}),this.view.enabled=!0,this.view.fullWidth=t,this.view.fullHeight=e,this.view.offsetX=n,this.view.offsetY=s,this.view.width=r,this.view.height=o,this.updateProjectionMatrix()}clearViewOffset(){this.view!==null&&(this.view.enabled=!1),this.updateProjectionMatrix()}updateProjectionMatrix(){let t=this.near,e=t*Math.tan(Dc*.5*this.fov)/this.zoom,n=2*e,s=this.aspect*n,r=-.5*s,o=this.view;if(this.view!==null&&this.view.enabled){let l=o.fullWidth,c=o.fullHeight;r+=o.offsetX*s/l,e-=o.offsetY*n/c,s*=o.width/l,n*=o.height/c}let a=this.filmOffset;a!==0&&(r+=t*a/this.getFilmWidth()),this.projectionMatrix.makePerspective(r,r+s,e,e-n,t,this.far,this.coordinateSystem,this.reversedDepth),this.projectionMatrixInverse.copy(this.projectionMatrix).invert()}toJSON(t){let e=super.toJSON(t);return e.object.fov=this.fov,e.object.zoom=this.zoom,e.object.near=this.near,e.object.far=this.far,e.object.focus=this.focus,e.object.aspect=this.aspect,this.view!==null&&(e.object.view=Object.assign({},this.view)),e.object.filmGauge=this.filmGauge,e.object.filmOffset=this.filmOffset,e}};var Ls=class extends Tr{constructor(t=-1,e=1,n=1,s=-1,r=.1,o=2e3){super(),this.isOrthographicCamera=!0,this.type="OrthographicCamera",this.zoom=1,this.view=null,this.left=t,this.right=e,this.top=n,this.bottom=s,this.near=r,this.far=o,this.updateProjectionMatrix()}copy(t,e){return super.copy(t,e),this.left=t.left,this.right=t.right,this.top=t.top,this.bottom=t.bottom,this.near=t.near,this.far=t.far,this.zoom=t.zoom,this.view=t.view===null?null:Object.assign({},t.view),this}setViewOffset(t,e,n,s,r,o){this.view===null&&(this.view={enabled:!0,fullWidth:1,fullHeight:1,offsetX:0,offsetY:0,width:1,height:1}),this.view.enabled=!0,this.view.fullWidth=t,this.view.fullHeight=e,this.view.offsetX=n,this.view.offsetY=s,this.view.width=r,this.view.height=o,this.updateProjectionMatrix()}clearViewOffset(){this.view!==null&&(this.view.enabled=!1),this.updateProjectionMatrix()}updateProjectionMatrix(){let t=(this.right-this.left)/(2*this.zoom),e=(this.top-this.bottom)/(2*this.zoom),n=(this.right+this.left)/2,s=(this.top+this.bottom)/2,r=n-t,o=n+t,a=s+e,l=s-e;if(this.view!==null&&this.view.enabled){let c=(this.right-this.left)/this.view.fullWidth/this.zoom,h=(this.top-this.bottom)/this.view.fullHeight/this.zoom;r+=c*this.view.offsetX,o=r+c*this.view.width,a-=h*this.view.offsetY,l=a-h*this.view.height}this.projectionMatrix.makeOrthographic(r,o,a,l,this.near,this.far,this.coordinateSystem,this.reversedDepth),this.projectionMatrixInverse.copy(this.projectionMatrix).invert()}toJSON(t){let e=super.toJSON(t);return e.object.zoom=this.zoom,e.object.left=this.left,e.object.right=this.right,e.object.top=this.top,e.object.bottom=this.bottom,e.object.near=this.near,e.object.far=this.far,this.view!==null&&(e.object.view=Object.assign({},this.view)),e}};var Ss=-90,bs=1,Ns=class extends Mn{constructor(t,e,n){super(),this.type="CubeCamera",this.renderTarget=n,this.coordinateSystem=null,this.activeMipmapLevel=0;let s=new rn(Ss,bs,t,e);s.layers=this.layers,this.add(s);let r=new rn(Ss,bs,t,e);r.layers=this.layers,this.add(r);let o=new rn(Ss,bs,t,e);o.layers=this.layers,this.add(o);let a=new rn(Ss,bs,t,e);a.layers=this.layers,this.add(a);let l=new rn(Ss,bs,t,e);l.layers=this.layers,this.add(l);let c=new rn(Ss,bs,t,e);c.layers=this.layers,this.add(c)}updateCoordinateSystem(){let t=this.coordinateSystem,e=this.children.concat(),[n,s,r,o,a,l]=e;for(let c of e)this.remove(c);if(t===yn)n.up.set(0,1,0),n.lookAt(1,0,0),s.up.set(0,1,0),s.lookAt(-1,0,0),r.up.set(0,0,-1),r.lookAt(0,1,0),o.up.set(0,0,1),o.lookAt(0,-1,0),a.up.set(0,1,0),a.lookAt(0,0,1),l.up.set(0,1,0),l.lookAt(0,0,-1);else if(t===mr)n.up.set(0,-1,0),n.lookAt(-1,0,0),s.up.set(0,-1,0),s.lookAt(1,0,0),r.up.set(0,0,1),r.lookAt(0,1,0),o.up.set(0,0,-1),o.lookAt(0,-1,0),a.up.set(0,-1,0),a.lookAt(0,0,1),l.up.set(0,-1,0),l.lookAt(0,0,-1);else throw new Error("THREE.CubeCamera.updateCoordinateSystem(): Invalid coordinate system: "+t);for(let c of e)this.add(c),c.updateMatrixWorld()}update(t,e){this.parent===null&&this.updateMatrixWorld();let{renderTarget:n,activeMipmapLevel:s}=this;this.coordinateSystem!==t.coordinateSystem&&(this.coordinateSystem=t.coordinateSystem,this.updateCoordinateSystem());let[r,o,a,l,c,h]=this.children,d=t.getRenderTarget(),u=t.getActiveCubeFace(),f=t.getActiveMipmapLevel(),m=t.xr.enabled;t.xr.enabled=!1;let v=n.texture.mipmapsAutoUpdate;n.texture.mipmapsAutoUpdate=!1;let p=!1;t.isWebGLRenderer===!0?p=t.state.buffers.depth.getReversed():p=t.reversedDepthBuffer,t.setRenderTarget(n,0,s),p&&t.autoClear===!1&&t.clearDepth(),t.render(e,r),t.setRenderTarget(n,1,s),p&&t.autoClear===!1&&t.clearDepth(),t.render(e,o),t.setRenderTarget(n,2,s),p&&t.autoClear===!1&&t.clearDepth(),t.render(e,a),t.setRenderTarget(n,3,s),p&&t.autoClear===!1&&t.clearDepth(),t.render(e,l),t.setRenderTarget(n,4,s),p&&t.autoClear===!1&&t.clearDepth(),t.render(e,c),n.texture.mipmapsAutoUpdate=v,t.setRenderTarget(n,5,s),p&&t.autoClear===!1&&t.clearDepth(),t.render(e,h),t.setRenderTarget(d,u,f),t.xr.enabled=m,n.texture.needsPMREMUpdate=!0}},Ca=class extends rn{constructor(t=[]){super(),this.isArrayCamera=!0,this.isMultiViewCamera=!1,this.cameras=t,this.perCameraFrustumCulled=!1}};var Oh="\\[\\]\\.:\\/",Ax=new RegExp("["+Oh+"]","g"),Fh="[^"+Oh+"]",Ex="[^"+Oh.replace("\\.","")+"]",Tx=/((?:WC+[\/:])*)/.source.replace("WC",Fh),Rx=/(WCOD+)?/.source.replace("WCOD",Ex),Cx=/(?:\.(WC+)(?:\[(.+)\])?)?/.source.replace("WC",Fh),Ix=/\.(WC+)(?:\[(.+)\])?/.source.replace("WC",Fh),Px=new RegExp("^"+Tx+Rx+Cx+Ix+"$"),Lx=["material","materials","bones","map"],rh=class{constructor(t,e,n){let s=n||ce.parseTrackName(e);this._targetGroup=t,this._bindings=t.subscribe_(e,s)}getValue(t,e){this.bind();let n=this._targetGroup.nCachedObjects_,s=this._bindings[n];s!==void 0&&s.getValue(t,e)}setValue(t,e){let n=this._bindings;for(let s=this._targetGroup.nCachedObjects_,r=n.length;s!==r;++s)n[s].setValue(t,e)}bind(){let t=this._bindings;for(let e=this._targetGroup.nCachedObjects_,n=t.length;e!==n;++e)t[e].bind()}unbind(){let t=this._bindings;for(let e=this._targetGroup.nCachedObjects_,n=t.length;e!==n;++e)t[e].unbind()}},ce=class i{constructor(t,e,n){this.path=e,this.parsedPath=n||i.parseTrackName(e),this.node=i.findNode(t,this.parsedPath.nodeName),this.rootNode=t,this.getValue=this._getValue_unbound,this.setValue=this._setValue_unbound}static create(t,e,n){return t&&t.isAnimationObjectGroup?new i.Composite(t,e,n):new i(t,e,n)}static sanitizeNodeName(t){return t.replace(/\s/g,"_").replace(Ax,"")}static parseTrackName(t){let e=Px.exec(t);if(e===null)throw new Error("THREE.PropertyBinding: Cannot parse trackName: "+t);let n={nodeName:e[2],objectName:e[3],objectIndex:e[4],propertyName:e[5],propertyIndex:e[6]},s=n.nodeName&&n.nodeName.lastIndexOf(".");if(s!==void 0&&s!==-1){let r=n.nodeName.substring(s+1);Lx.indexOf(r)!==-1&&(n.nodeName=n.nodeName.substring(0,s),n.objectName=r)}if(n.propertyName===null||n.propertyName.length===0)throw new Error("THREE.PropertyBinding: can not parse propertyName from trackName: "+t);return n}static findNode(t,e){if(e===void 0||e===""||e==="."||e===-1||e===t.name||e===t.uuid)return t;if(t.skeleton){let n=t.skeleton.getBoneByName(e);if(n!==void 0)return n}if(t.children){let n=function(r){for(let o=0;o<r.length;o++){let a=r[o];if(a.name===e||a.uuid===e)return a;let l=n(a.children);if(l)return l}return null},s=n(t.children);if(s)return s}return null}_getValue_unavailable(){}_setValue_unavailable(){}_getValue_direct(t,e){t[e]=this.targetObject[this.propertyName]}_getValue_array(t,e){let n=this.resolvedProperty;for(let s=0,r=n.length;s!==r;++s)t[e++]=n[s]}_getValue_arrayElement(t,e){t[e]=this.resolvedProperty[this.propertyIndex]}_getValue_toArray(t,e){this.resolvedProperty.toArray(t,e)}_setValue_direct(t,e){this.targetObject[this.propertyName]=t[e]}_setValue_direct_setNeedsUpdate(t,e){this.targetObject[this.propertyName]=t[e],this.targetObject.needsUpdate=!0}_setValue_direct_setMatrixWorldNeedsUpdate(t,e){this.targetObject[this.propertyName]=t[e],this.targetObject.matrixWorldNeedsUpdate=!0}_setValue_array(t,e){let n=this.resolvedProperty;for(let s=0,r=n.length;s!==r;++s)n[s]=t[e++]}_setValue_array_setNeedsUpdate(t,e){let n=this.resolvedProperty;for(let s=0,r=n.length;s!==r;++s)n[s]=t[e++];this.targetObject.needsUpdate=!0}_setValue_array_setMatrixWorldNeedsUpdate(t,e){let n=this.resolvedProperty;for(let s=0,r=n.length;s!==r;++s)n[s]=t[e++];this.targetObject.matrixWorldNeedsUpdate=!0}_setValue_arrayElement(t,e){this.resolvedProperty[this.propertyIndex]=t[e]}_setValue_arrayElement_setNeedsUpdate(t,e){this.resolvedProperty[this.propertyIndex]=t[e],this.targetObject.needsUpdate=!0}_setValue_arrayElement_setMatrixWorldNeedsUpdate(t,e){this.resolvedProperty[this.propertyIndex]=t[e],this.targetObject.matrixWorldNeedsUpdate=!0}_setValue_fromArray(t,e){this.resolvedProperty.fromArray(t,e)}_setValue_fromArray_setNeedsUpdate(t,e){this.resolvedProperty.fromArray(t,e),this.targetObject.needsUpdate=!0}_setValue_fromArray_setMatrixWorldNeedsUpdate(t,e){this.resolvedProperty.fromArray(t,e),this.targetObject.matrixWorldNeedsUpdate=!0}_getValue_unbound(t,e){this.bind(),this.getValue(t,e)}_setValue_unbound(t,e){this.bind(),this.setValue(t,e)}bind(){let t=this.node,e=this.parsedPath,n=e.objectName,s=e.propertyName,r=e.propertyIndex;if(t||(t=i.findNode(this.rootNode,e.nodeName),this.node=t),this.getValue=this._getValue_unavailable,this.setValue=this._setValue_unavailable,!t){Nt("PropertyBinding: No target node found for track: "+this.path+".");return}if(n){let c=e.objectIndex;switch(n){case"materials":if(!t.material){Ut("PropertyBinding: Can not bind to material as node does not have a material.",this);return}if(!t.material.materials){Ut("PropertyBinding: Can not bind to material.materials as node.material does not have a materials array.",this);return}t=t.material.materials;break;case"bones":if(!t.skeleton){Ut("PropertyBinding: Can not bind to bones as node does not have a skeleton.",this);return}t=t.skeleton.bones;for(let h=0;h<t.length;h++)if(t[h].name===c){c=h;break}break;case"map":if("map"in t){t=t.map;break}if(!t.material){Ut("PropertyBinding: Can not bind to material as node does not have a material.",this);return}if(!t.material.map){Ut("PropertyBinding: Can not bind to material.map as node.material does not have a map.",this);return}t=t.material.map;break;default:if(t[n]===void 0){Ut("PropertyBinding: Can not bind to objectName of node undefined.",this);return}t=t[n]}if(c!==void 0){if(t[c]===void 0){Ut("PropertyBinding: Trying to bind to objectIndex of objectName, but is undefined.",this,t);return}t=t[c]}}let o=t[s];if(o===void 0){let c=e.nodeName;Ut("PropertyBinding: Trying to update property for track: "+c+"."+s+" but it wasn't found.",t);return}let a=this.Versioning.None;this.targetObject=t,t.isMaterial===!0?a=this.Versioning.NeedsUpdate:t.isObject3D===!0&&(a=this.Versioning.MatrixWorldNeedsUpdate);let l=this.BindingType.Direct;if(r!==void 0){if(s==="morphTargetInfluences"){if(!t.geometry){Ut("PropertyBinding: Can not bind to morphTargetInfluences because node does not have a geometry.",this);return}if(!t.geometry.morphAttributes){Ut("PropertyBinding: Can not bind to morphTargetInfluences because node does not have a geometry.morphAttributes.",this);return}t.morphTargetDictionary[r]!==void 0&&(r=t.morphTargetDictionary[r])}l=this.BindingType.ArrayElement,this.resolvedProperty=o,this.propertyIndex=r}else o.fromArray!==void 0&&o.toArray!==void 0?(l=this.BindingType.HasFromToArray,this.resolvedProperty=o):Array.isArray(o)?(l=this.BindingType.EntireArray,this.resolvedProperty=o):this.propertyName=s;this.getValue=this.GetterByBindingType[l],this.setValue=this.SetterByBindingTypeAndVersioning[l][a]}unbind(){this.node=null,this.getValue=this._getValue_unbound,this.setValue=this._setValue_unbound}};ce.Composite=rh;ce.prototype.BindingType={Direct:0,EntireArray:1,ArrayElement:2,HasFromToArray:3};ce.prototype.Versioning={None:0,NeedsUpdate:1,MatrixWorldNeedsUpdate:2};ce.prototype.GetterByBindingType=[ce.prototype._getValue_direct,ce.prototype._getValue_array,ce.prototype._getValue_arrayElement,ce.prototype._getValue_toArray];ce.prototype.SetterByBindingTypeAndVersioning=[[ce.prototype._setValue_direct,ce.prototype._setValue_direct_setNeedsUpdate,ce.prototype._setValue_direct_setMatrixWorldNeedsUpdate],[ce.prototype._setValue_array,ce.prototype._setValue_array_setNeedsUpdate,ce.prototype._setValue_array_setMatrixWorldNeedsUpdate],[ce.prototype._setValue_arrayElement,ce.prototype._setValue_arrayElement_setNeedsUpdate,ce.prototype._setValue_arrayElement_setMatrixWorldNeedsUpdate],[ce.prototype._setValue_fromArray,ce.prototype._setValue_fromArray_setNeedsUpdate,ce.prototype._setValue_fromArray_setMatrixWorldNeedsUpdate]];var XA=new Float32Array(1);var Hh=class Hh{constructor(t,e,n,s){this.elements=[1,0,0,1],t!==void 0&&this.set(t,e,n,s)}identity(){return this.set(1,0,0,1),this}fromArray(t,e=0){for(let n=0;n<4;n++)this.elements[n]=t[n+e];return this}set(t,e,n,s){let r=this.elements;return r[0]=t,r[2]=e,r[1]=n,r[3]=s,this}};Hh.prototype.isMatrix2=!0;var oh=Hh;function Bh(i,t,e,n){let s=Nx(n);switch(e){case Eh:return i*t;case Rh:return i*t/s.components*s.byteLength;case Fa:return i*t/s.components*s.byteLength;case Ri:return i*t*2/s.components*s.byteLength;case Ba:return i*t*2/s.components*s.byteLength;case Th:return i*t*3/s.components*s.byteLength;case cn:return i*t*4/s.components*s.byteLength;case ka:return i*t*4/s.components*s.byteLength;case Ir:case Pr:return Math.floor((i+3)/4)*Math.floor((t+3)/4)*8;case Lr:case Nr:return Math.floor((i+3)/4)*Math.floor((t+3)/4)*16;case Ga:case Ha:return Math.max(i,16)*Math.max(t,8)/4;case za:case Va:return Math.max(i,8)*Math.max(t,8)/2;case Wa:case Xa:case qa:case Ya:return Math.floor((i+3)/4)*Math.floor((t+3)/4)*8;case $a:case Dr:case Za:return Math.floor((i+3)/4)*Math.floor((t+3)/4)*16;case Ja:return Math.floor((i+3)/4)*Math.floor((t+3)/4)*16;case Ka:return Math.floor((i+4)/5)*Math.floor((t+3)/4)*16;case ja:return Math.floor((i+4)/5)*Math.floor((t+4)/5)*16;case Qa:return Math.floor((i+5)/6)*Math.floor((t+4)/5)*16;case tl:return Math.floor((i+5)/6)*Math.floor((t+5)/6)*16;case el:return Math.floor((i+7)/8)*Math.floor((t+4)/5)*16;case nl:return Math.floor((i+7)/8)*Math.floor((t+5)/6)*16;case il:return Math.floor((i+7)/8)*Math.floor((t+7)/8)*16;case sl:return Math.floor((i+9)/10)*Math.floor((t+4)/5)*16;case rl:return Math.floor((i+9)/10)*Math.floor((t+5)/6)*16;case ol:return Math.floor((i+9)/10)*Math.floor((t+7)/8)*16;case al:return Math.floor((i+9)/10)*Math.floor((t+9)/10)*16;case ll:return Math.floor((i+11)/12)*Math.floor((t+9)/10)*16;case cl:return Math.floor((i+11)/12)*Math.floor((t+11)/12)*16;case hl:case ul:case dl:return Math.ceil(i/4)*Math.ceil(t/4)*16;case fl:case pl:return Math.ceil(i/4)*Math.ceil(t/4)*8;case Ur:case ml:return Math.ceil(i/4)*Math.ceil(t/4)*16}throw new Error(`Unable to determine texture byte length for ${e} format.`)}function Nx(i){switch(i){case ln:case Sh:return{byteLength:1,components:1};case Fs:case bh:case On:return{byteLength:2,components:1};case Ua:case Oa:return{byteLength:2,components:4};case Dn:case Da:case Un:return{byteLength:4,components:1};case wh:case Ah:return{byteLength:4,components:3}}throw new Error(`THREE.TextureUtils: Unknown texture type ${i}.`)}typeof __THREE_DEVTOOLS__<"u"&&__THREE_DEVTOOLS__.dispatchEvent(new CustomEvent("register",{detail:{revision:"187"}}));typeof window<"u"&&(window.__THREE__?Nt("WARNING: Multiple instances of Three.js being imported."):window.__THREE__="187");function qm(){let i=null,t=!1,e=null,n=null;function s(r,o){n=i.requestAnimationFrame(s),e(r,o)}return{start:function(){t!==!0&&e!==null&&i!==null&&(n=i.requestAnimationFrame(s),t=!0)},stop:function(){i!==null&&i.cancelAnimationFrame(n),t=!1},setAnimationLoop:function(r){e=r},setContext:function(r){i=r}}}function Ux(i){let t=new WeakMap;function e(a,l){let c=a.array,h=a.usage,d=c.byteLength,u=i.createBuffer();i.bindBuffer(l,u),i.bufferData(l,c,h),a.onUploadCallback();let f;if(c instanceof Float32Array)f=i.FLOAT;else if(typeof Float16Array<"u"&&c instanceof Float16Array)f=i.HALF_FLOAT;else if(c instanceof Uint16Array)a.isFloat16BufferAttribute?f=i.HALF_FLOAT:f=i.UNSIGNED_SHORT;else if(c instanceof Int16Array)f=i.SHORT;else if(c instanceof Uint32Array)f=i.UNSIGNED_INT;else if(c instanceof Int32Array)f=i.INT;else if(c instanceof Int8Array)f=i.BYTE;else if(c instanceof Uint8Array)f=i.UNSIGNED_BYTE;else if(c instanceof Uint8ClampedArray)f=i.UNSIGNED_BYTE;else throw new Error("THREE.WebGLAttributes: Unsupported buffer data format: "+c);return{buffer:u,type:f,bytesPerElement:c.BYTES_PER_ELEMENT,version:a.version,size:d}}function n(a,l,c){let h=l.array,d=l.updateRanges;if(i.bindBuffer(c,a),d.length===0)i.bufferSubData(c,0,h);else{d.sort((f,m)=>f.start-m.start);let u=0;for(let f=1;f<d.length;f++){let m=d[u],v=d[f];v.start<=m.start+m.count+1?m.count=Math.max(m.count,v.start+v.count-m.start):(++u,d[u]=v)}d.length=u+1;for(let f=0,m=d.length;f<m;f++){let v=d[f];i.bufferSubData(c,v.start*h.BYTES_PER_ELEMENT,h,v.start,v.count)}l.clearUpdateRanges()}l.onUploadCallback()}function s(a){return a.isInterleavedBufferAttribute&&(a=a.data),t.get(a)}function r(a){a.isInterleavedBufferAttribute&&(a=a.data);let l=t.get(a);l&&(i.deleteBuffer(l.buffer),t.delete(a))}function o(a,l){if(a.isInterleavedBufferAttribute&&(a=a.data),a.isGLBufferAttribute){let h=t.get(a);(!h||h.version<a.version)&&t.set(a,{buffer:a.buffer,type:a.type,bytesPerElement:a.elementSize,version:a.version});return}let c=t.get(a);if(c===void 0)t.set(a,e(a,l));else if(c.version<a.version){if(c.size!==a.array.byteLength)throw new Error("THREE.WebGLAttributes: The size of the buffer attribute's array buffer does not match the original size. Resizing buffer attributes is not supported.");n(c.buffer,a,l),c.version=a.version}}return{get:s,remove:r,update:o}}var Ox=`#ifdef USE_ALPHAHASH
	if ( diffuseColor.a < getAlphaHashThreshold( vPosition ) ) discard;
#endif`,Fx=`#ifdef USE_ALPHAHASH
	const float ALPHA_HASH_SCALE = 0.05;
	float hash2D( vec2 value ) {
		return fract( 1.0e4 * sin( 17.0 * value.x + 0.1 * value.y ) * ( 0.1 + abs( sin( 13.0 * value.y + value.x ) ) ) );
	}
	float hash3D( vec3 value ) {
		return hash2D( vec2( hash2D( value.xy ), value.z ) );
	}
	float getAlphaHashThreshold( vec3 position ) {
		float maxDeriv = max(
			length( dFdx( position.xyz ) ),
			length( dFdy( position.xyz ) )
		);
		float pixScale = 1.0 / ( ALPHA_HASH_SCALE * maxDeriv );
		vec2 pixScales = vec2(
			exp2( floor( log2( pixScale ) ) ),
			exp2( ceil( log2( pixScale ) ) )
		);
		vec2 alpha = vec2(
			hash3D( floor( pixScales.x * position.xyz ) ),
			hash3D( floor( pixScales.y * position.xyz ) )
		);
		float lerpFactor = fract( log2( pixScale ) );
		float x = ( 1.0 - lerpFactor ) * alpha.x + lerpFactor * alpha.y;
		float a = min( lerpFactor, 1.0 - lerpFactor );
		vec3 cases = vec3(
			x * x / ( 2.0 * a * ( 1.0 - a ) ),
			( x - 0.5 * a ) / ( 1.0 - a ),
			1.0 - ( ( 1.0 - x ) * ( 1.0 - x ) / ( 2.0 * a * ( 1.0 - a ) ) )
		);
		float threshold = ( x < ( 1.0 - a ) )
			? ( ( x < a ) ? cases.x : cases.y )
			: cases.z;
		return clamp( threshold , 1.0e-6, 1.0 );
	}
#endif`,Bx=`#ifdef USE_ALPHAMAP
	diffuseColor.a *= texture2D( alphaMap, vAlphaMapUv ).g;
#endif`,kx=`#ifdef USE_ALPHAMAP
	uniform sampler2D alphaMap;
#endif`,zx=`#ifdef USE_ALPHATEST
	#ifdef ALPHA_TO_COVERAGE
	diffuseColor.a = smoothstep( alphaTest, alphaTest + fwidth( diffuseColor.a ), diffuseColor.a );
	if ( diffuseColor.a == 0.0 ) discard;
	#else
	if ( diffuseColor.a < alphaTest ) discard;
	#endif
#endif`,Gx=`#ifdef USE_ALPHATEST
	uniform float alphaTest;
#endif`,Vx=`#ifdef USE_AOMAP
	float ambientOcclusion = ( texture2D( aoMap, vAoMapUv ).r - 1.0 ) * aoMapIntensity + 1.0;
	reflectedLight.indirectDiffuse *= ambientOcclusion;
	#if defined( USE_CLEARCOAT ) 
		clearcoatSpecularIndirect *= ambientOcclusion;
	#endif
	#if defined( USE_SHEEN ) 
		sheenSpecularIndirect *= ambientOcclusion;
	#endif
	#if defined( USE_ENVMAP ) && defined( STANDARD )
		float dotNV = saturate( dot( geometryNormal, geometryViewDir ) );
		reflectedLight.indirectSpecular *= computeSpecularOcclusion( dotNV, ambientOcclusion, material.roughness );
	#endif
#endif`,Hx=`#ifdef USE_AOMAP
	uniform sampler2D aoMap;
	uniform float aoMapIntensity;
#endif`,Wx=`#ifdef USE_BATCHING
	#if ! defined( GL_ANGLE_multi_draw )
	#define gl_DrawID _gl_DrawID
	uniform int _gl_DrawID;
	#endif
	uniform highp sampler2D batchingTexture;
	uniform highp usampler2D batchingIdTexture;
	mat4 getBatchingMatrix( const in float i ) {
		int size = textureSize( batchingTexture, 0 ).x;
		int j = int( i ) * 4;
		int x = j % size;
		int y = j / size;
		vec4 v1 = texelFetch( batchingTexture, ivec2( x, y ), 0 );
		vec4 v2 = texelFetch( batchingTexture, ivec2( x + 1, y ), 0 );
		vec4 v3 = texelFetch( batchingTexture, ivec2( x + 2, y ), 0 );
		vec4 v4 = texelFetch( batchingTexture, ivec2( x + 3, y ), 0 );
		return mat4( v1, v2, v3, v4 );
	}
	float getIndirectIndex( const in int i ) {
		int size = textureSize( batchingIdTexture, 0 ).x;
		int x = i % size;
		int y = i / size;
		return float( texelFetch( batchingIdTexture, ivec2( x, y ), 0 ).r );
	}
#endif
#ifdef USE_BATCHING_COLOR
	uniform sampler2D batchingColorTexture;
	vec4 getBatchingColor( const in float i ) {
		int size = textureSize( batchingColorTexture, 0 ).x;
		int j = int( i );
		int x = j % size;
		int y = j / size;
		return texelFetch( batchingColorTexture, ivec2( x, y ), 0 );
	}
#endif`,Xx=`#ifdef USE_BATCHING
	mat4 batchingMatrix = getBatchingMatrix( getIndirectIndex( gl_DrawID ) );
#endif`,$x=`vec3 transformed = vec3( position );
#ifdef USE_ALPHAHASH
	vPosition = vec3( position );
#endif`,qx=`vec3 objectNormal = vec3( normal );
#ifdef USE_TANGENT
	vec3 objectTangent = vec3( tangent.xyz );
#endif`,Yx=`float G_BlinnPhong_Implicit( ) {
	return 0.25;
}
float D_BlinnPhong( const in float shininess, const in float dotNH ) {
	return RECIPROCAL_PI * ( shininess * 0.5 + 1.0 ) * pow( dotNH, shininess );
}
vec3 BRDF_BlinnPhong( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, const in vec3 specularColor, const in float shininess ) {
	vec3 halfDir = normalize( lightDir + viewDir );
	float dotNH = saturate( dot( normal, halfDir ) );
	float dotVH = saturate( dot( viewDir, halfDir ) );
	vec3 F = F_Schlick( specularColor, 1.0, dotVH );
	float G = G_BlinnPhong_Implicit( );
	float D = D_BlinnPhong( shininess, dotNH );
	return F * ( G * D );
} // validated`,Zx=`#ifdef USE_IRIDESCENCE
	const mat3 XYZ_TO_REC709 = mat3(
		 3.2404542, -0.9692660,  0.0556434,
		-1.5371385,  1.8760108, -0.2040259,
		-0.4985314,  0.0415560,  1.0572252
	);
	vec3 Fresnel0ToIor( vec3 fresnel0 ) {
		vec3 sqrtF0 = sqrt( fresnel0 );
		return ( vec3( 1.0 ) + sqrtF0 ) / ( vec3( 1.0 ) - sqrtF0 );
	}
	vec3 IorToFresnel0( vec3 transmittedIor, float incidentIor ) {
		return pow2( ( transmittedIor - vec3( incidentIor ) ) / ( transmittedIor + vec3( incidentIor ) ) );
	}
	float IorToFresnel0( float transmittedIor, float incidentIor ) {
		return pow2( ( transmittedIor - incidentIor ) / ( transmittedIor + incidentIor ));
	}
	vec3 evalSensitivity( float OPD, vec3 shift ) {
		float phase = 2.0 * PI * OPD * 1.0e-9;
		vec3 val = vec3( 5.4856e-13, 4.4201e-13, 5.2481e-13 );
		vec3 pos = vec3( 1.6810e+06, 1.7953e+06, 2.2084e+06 );
		vec3 var = vec3( 4.3278e+09, 9.3046e+09, 6.6121e+09 );
		vec3 xyz = val * sqrt( 2.0 * PI * var ) * cos( pos * phase + shift ) * exp( - pow2( phase ) * var );
		xyz.x += 9.7470e-14 * sqrt( 2.0 * PI * 4.5282e+09 ) * cos( 2.2399e+06 * phase + shift[ 0 ] ) * exp( - 4.5282e+09 * pow2( phase ) );
		xyz /= 1.0685e-7;
		vec3 rgb = XYZ_TO_REC709 * xyz;
		return rgb;
	}
	vec3 evalIridescence( float outsideIOR, float eta2, float cosTheta1, float thinFilmThickness, vec3 baseF0 ) {
		vec3 I;
		float iridescenceIOR = mix( outsideIOR, eta2, smoothstep( 0.0, 0.03, thinFilmThickness ) );
		float sinTheta2Sq = pow2( outsideIOR / iridescenceIOR ) * ( 1.0 - pow2( cosTheta1 ) );
		float cosTheta2Sq = 1.0 - sinTheta2Sq;
		if ( cosTheta2Sq < 0.0 ) {
			return vec3( 1.0 );
		}
		float cosTheta2 = sqrt( cosTheta2Sq );
		float R0 = IorToFresnel0( iridescenceIOR, outsideIOR );
		float R12 = F_Schlick( R0, 1.0, cosTheta1 );
		float T121 = 1.0 - R12;
		float phi12 = 0.0;
		if ( iridescenceIOR < outsideIOR ) phi12 = PI;
		float phi21 = PI - phi12;
		vec3 baseIOR = Fresnel0ToIor( clamp( baseF0, 0.0, 0.9999 ) );		vec3 R1 = IorToFresnel0( baseIOR, iridescenceIOR );
		vec3 R23 = F_Schlick( R1, 1.0, cosTheta2 );
		vec3 phi23 = vec3( 0.0 );
		if ( baseIOR[ 0 ] < iridescenceIOR ) phi23[ 0 ] = PI;
		if ( baseIOR[ 1 ] < iridescenceIOR ) phi23[ 1 ] = PI;
		if ( baseIOR[ 2 ] < iridescenceIOR ) phi23[ 2 ] = PI;
		float OPD = 2.0 * iridescenceIOR * thinFilmThickness * cosTheta2;
		vec3 phi = vec3( phi21 ) + phi23;
		vec3 R123 = clamp( R12 * R23, 1e-5, 0.9999 );
		vec3 r123 = sqrt( R123 );
		vec3 Rs = pow2( T121 ) * R23 / ( vec3( 1.0 ) - R123 );
		vec3 C0 = R12 + Rs;
		I = C0;
		vec3 Cm = Rs - T121;
		for ( int m = 1; m <= 2; ++ m ) {
			Cm *= r123;
			vec3 Sm = 2.0 * evalSensitivity( float( m ) * OPD, float( m ) * phi );
			I += Cm * Sm;
		}
		return max( I, vec3( 0.0 ) );
	}
#endif`,Jx=`#ifdef USE_BUMPMAP
	uniform sampler2D bumpMap;
	uniform float bumpScale;
	vec2 dHdxy_fwd() {
		vec2 dSTdx = dFdx( vBumpMapUv );
		vec2 dSTdy = dFdy( vBumpMapUv );
		float Hll = bumpScale * texture2D( bumpMap, vBumpMapUv ).x;
		float dBx = bumpScale * texture2D( bumpMap, vBumpMapUv + dSTdx ).x - Hll;
		float dBy = bumpScale * texture2D( bumpMap, vBumpMapUv + dSTdy ).x - Hll;
		return vec2( dBx, dBy );
	}
	vec3 perturbNormalArb( vec3 surf_pos, vec3 surf_norm, vec2 dHdxy, float faceDirection ) {
		vec3 vSigmaX = normalize( dFdx( surf_pos.xyz ) );
		vec3 vSigmaY = normalize( dFdy( surf_pos.xyz ) );
		vec3 vN = surf_norm;
		vec3 R1 = cross( vSigmaY, vN );
		vec3 R2 = cross( vN, vSigmaX );
		float fDet = dot( vSigmaX, R1 ) * faceDirection;
		vec3 vGrad = sign( fDet ) * ( dHdxy.x * R1 + dHdxy.y * R2 );
		return normalize( abs( fDet ) * surf_norm - vGrad );
	}
#endif`,Kx=`#if NUM_CLIPPING_PLANES > 0
	vec4 plane;
	#ifdef ALPHA_TO_COVERAGE
		float distanceToPlane, distanceGradient;
		float clipOpacity = 1.0;
		#pragma unroll_loop_start
		for ( int i = 0; i < UNION_CLIPPING_PLANES; i ++ ) {
			plane = clippingPlanes[ i ];
			distanceToPlane = - dot( vClipPosition, plane.xyz ) + plane.w;
			distanceGradient = fwidth( distanceToPlane ) / 2.0;
			clipOpacity *= smoothstep( - distanceGradient, distanceGradient, distanceToPlane );
			if ( clipOpacity == 0.0 ) discard;
		}
		#pragma unroll_loop_end
		#if UNION_CLIPPING_PLANES < NUM_CLIPPING_PLANES
			float unionClipOpacity = 1.0;
			#pragma unroll_loop_start
			for ( int i = UNION_CLIPPING_PLANES; i < NUM_CLIPPING_PLANES; i ++ ) {
				plane = clippingPlanes[ i ];
				distanceToPlane = - dot( vClipPosition, plane.xyz ) + plane.w;
				distanceGradient = fwidth( distanceToPlane ) / 2.0;
				unionClipOpacity *= 1.0 - smoothstep( - distanceGradient, distanceGradient, distanceToPlane );
			}
			#pragma unroll_loop_end
			clipOpacity *= 1.0 - unionClipOpacity;
		#endif
		diffuseColor.a *= clipOpacity;
		if ( diffuseColor.a == 0.0 ) discard;
	#else
		#pragma unroll_loop_start
		for ( int i = 0; i < UNION_CLIPPING_PLANES; i ++ ) {
			plane = clippingPlanes[ i ];
			if ( dot( vClipPosition, plane.xyz ) > plane.w ) discard;
		}
		#pragma unroll_loop_end
		#if UNION_CLIPPING_PLANES < NUM_CLIPPING_PLANES
			bool clipped = true;
			#pragma unroll_loop_start
			for ( int i = UNION_CLIPPING_PLANES; i < NUM_CLIPPING_PLANES; i ++ ) {
				plane = clippingPlanes[ i ];
				clipped = ( dot( vClipPosition, plane.xyz ) > plane.w ) && clipped;
			}
			#pragma unroll_loop_end
			if ( clipped ) discard;
		#endif
	#endif
#endif`,jx=`#if NUM_CLIPPING_PLANES > 0
	varying vec3 vClipPosition;
	uniform vec4 clippingPlanes[ NUM_CLIPPING_PLANES ];
#endif`,Qx=`#if NUM_CLIPPING_PLANES > 0
	varying vec3 vClipPosition;
#endif`,ty=`#if NUM_CLIPPING_PLANES > 0
	vClipPosition = - mvPosition.xyz;
#endif`,ey=`#if defined( USE_COLOR ) || defined( USE_COLOR_ALPHA )
	diffuseColor *= vColor;
#endif`,ny=`#if defined( USE_COLOR ) || defined( USE_COLOR_ALPHA )
	varying vec4 vColor;
#endif`,iy=`#if defined( USE_COLOR ) || defined( USE_COLOR_ALPHA ) || defined( USE_INSTANCING_COLOR ) || defined( USE_BATCHING_COLOR )
	varying vec4 vColor;
#endif`,sy=`#if defined( USE_COLOR ) || defined( USE_COLOR_ALPHA ) || defined( USE_INSTANCING_COLOR ) || defined( USE_BATCHING_COLOR )
	vColor = vec4( 1.0 );
#endif
#ifdef USE_COLOR_ALPHA
	vColor *= color;
#elif defined( USE_COLOR )
	vColor.rgb *= color;
#endif
#ifdef USE_INSTANCING_COLOR
	vColor.rgb *= instanceColor.rgb;
#endif
#ifdef USE_BATCHING_COLOR
	vColor *= getBatchingColor( getIndirectIndex( gl_DrawID ) );
#endif`,ry=`#define PI 3.141592653589793
#define PI2 6.283185307179586
#define PI_HALF 1.5707963267948966
#define RECIPROCAL_PI 0.3183098861837907
#define RECIPROCAL_PI2 0.15915494309189535
#define EPSILON 1e-6
#ifndef saturate
#define saturate( a ) clamp( a, 0.0, 1.0 )
#endif
#define whiteComplement( a ) ( 1.0 - saturate( a ) )
float pow2( const in float x ) { return x*x; }
vec3 pow2( const in vec3 x ) { return x*x; }
float pow3( const in float x ) { return x*x*x; }
float pow4( const in float x ) { float x2 = x*x; return x2*x2; }
float max3( const in vec3 v ) { return max( max( v.x, v.y ), v.z ); }
float average( const in vec3 v ) { return dot( v, vec3( 0.3333333 ) ); }
highp float rand( const in vec2 uv ) {
	const highp float a = 12.9898, b = 78.233, c = 43758.5453;
	highp float dt = dot( uv.xy, vec2( a,b ) ), sn = mod( dt, PI );
	return fract( sin( sn ) * c );
}
#ifdef HIGH_PRECISION
	float precisionSafeLength( vec3 v ) { return length( v ); }
#else
	float precisionSafeLength( vec3 v ) {
		float maxComponent = max3( abs( v ) );
		return length( v / maxComponent ) * maxComponent;
	}
#endif
struct IncidentLight {
	vec3 color;
	vec3 direction;
	bool visible;
};
struct ReflectedLight {
	vec3 directDiffuse;
	vec3 directSpecular;
	vec3 indirectDiffuse;
	vec3 indirectSpecular;
};
#ifdef USE_ALPHAHASH
	varying vec3 vPosition;
#endif
vec3 transformDirection( in vec3 dir, in mat4 matrix ) {
	return normalize( ( matrix * vec4( dir, 0.0 ) ).xyz );
}
#define inverseTransformDirection transformDirectionByInverseViewMatrix
vec3 transformNormalByInverseViewMatrix( in vec3 normal, in mat4 viewMatrix ) {
	return normalize( ( vec4( normal, 0.0 ) * viewMatrix ).xyz );
}
vec3 transformDirectionByInverseViewMatrix( in vec3 dir, in mat4 viewMatrix ) {
	return normalize( ( vec4( dir, 0.0 ) * viewMatrix ).xyz );
}
bool isPerspectiveMatrix( mat4 m ) {
	return m[ 2 ][ 3 ] == - 1.0;
}
vec2 equirectUv( in vec3 dir ) {
	float u = atan( dir.z, dir.x ) * RECIPROCAL_PI2 + 0.5;
	float v = asin( clamp( dir.y, - 1.0, 1.0 ) ) * RECIPROCAL_PI + 0.5;
	return vec2( u, v );
}
vec3 BRDF_Lambert( const in vec3 diffuseColor ) {
	return RECIPROCAL_PI * diffuseColor;
}
vec3 F_Schlick( const in vec3 f0, const in float f90, const in float dotVH ) {
	float fresnel = exp2( ( - 5.55473 * dotVH - 6.98316 ) * dotVH );
	return f0 * ( 1.0 - fresnel ) + ( f90 * fresnel );
}
float F_Schlick( const in float f0, const in float f90, const in float dotVH ) {
	float fresnel = exp2( ( - 5.55473 * dotVH - 6.98316 ) * dotVH );
	return f0 * ( 1.0 - fresnel ) + ( f90 * fresnel );
} // validated`,oy=`vec3 transformedNormal = objectNormal;
#ifdef USE_TANGENT
	vec3 transformedTangent = objectTangent;
#endif
#ifdef USE_BATCHING
	mat3 bm = mat3( batchingMatrix );
	transformedNormal /= vec3( dot( bm[ 0 ], bm[ 0 ] ), dot( bm[ 1 ], bm[ 1 ] ), dot( bm[ 2 ], bm[ 2 ] ) );
	transformedNormal = bm * transformedNormal;
	#ifdef USE_TANGENT
		transformedTangent = bm * transformedTangent;
	#endif
#endif
#ifdef USE_INSTANCING
	mat3 im = mat3( instanceMatrix );
	transformedNormal /= vec3( dot( im[ 0 ], im[ 0 ] ), dot( im[ 1 ], im[ 1 ] ), dot( im[ 2 ], im[ 2 ] ) );
	transformedNormal = im * transformedNormal;
	#ifdef USE_TANGENT
		transformedTangent = im * transformedTangent;
	#endif
#endif
transformedNormal = normalMatrix * transformedNormal;
#ifdef FLIP_SIDED
	transformedNormal = - transformedNormal;
#endif
#ifdef USE_TANGENT
	transformedTangent = ( modelViewMatrix * vec4( transformedTangent, 0.0 ) ).xyz;
#endif`,ay=`#ifdef USE_DISPLACEMENTMAP
	uniform sampler2D displacementMap;
	uniform float displacementScale;
	uniform float displacementBias;
#endif`,ly=`#ifdef USE_DISPLACEMENTMAP
	transformed += normalize( objectNormal ) * ( texture2D( displacementMap, vDisplacementMapUv ).x * displacementScale + displacementBias );
#endif`,cy=`#ifdef USE_EMISSIVEMAP
	vec4 emissiveColor = texture2D( emissiveMap, vEmissiveMapUv );
	#ifdef DECODE_VIDEO_TEXTURE_EMISSIVE
		emissiveColor = sRGBTransferEOTF( emissiveColor );
	#endif
	totalEmissiveRadiance *= emissiveColor.rgb;
#endif`,hy=`#ifdef USE_EMISSIVEMAP
	uniform sampler2D emissiveMap;
#endif`,uy="gl_FragColor = linearToOutputTexel( gl_FragColor );",dy=`vec4 LinearTransferOETF( in vec4 value ) {
	return value;
}
vec4 sRGBTransferEOTF( in vec4 value ) {
	return vec4( mix( pow( value.rgb * 0.9478672986 + vec3( 0.0521327014 ), vec3( 2.4 ) ), value.rgb * 0.0773993808, vec3( lessThanEqual( value.rgb, vec3( 0.04045 ) ) ) ), value.a );
}
vec4 sRGBTransferOETF( in vec4 value ) {
	return vec4( mix( pow( value.rgb, vec3( 0.41666 ) ) * 1.055 - vec3( 0.055 ), value.rgb * 12.92, vec3( lessThanEqual( value.rgb, vec3( 0.0031308 ) ) ) ), value.a );
}`,fy=`#ifdef USE_ENVMAP
	#ifdef ENV_WORLDPOS
		vec3 cameraToFrag;
		if ( isOrthographic ) {
			cameraToFrag = normalize( vec3( - viewMatrix[ 0 ][ 2 ], - viewMatrix[ 1 ][ 2 ], - viewMatrix[ 2 ][ 2 ] ) );
		} else {
			cameraToFrag = normalize( vWorldPosition - cameraPosition );
		}
		vec3 worldNormal = transformNormalByInverseViewMatrix( normal, viewMatrix );
		#ifdef ENVMAP_MODE_REFLECTION
			vec3 reflectVec = reflect( cameraToFrag, worldNormal );
		#else
			vec3 reflectVec = refract( cameraToFrag, worldNormal, refractionRatio );
		#endif
	#else
		vec3 reflectVec = vReflect;
	#endif
	#ifdef ENVMAP_TYPE_CUBE
		vec4 envColor = textureCube( envMap, envMapRotation * reflectVec );
		#ifdef ENVMAP_BLENDING_MULTIPLY
			outgoingLight = mix( outgoingLight, outgoingLight * envColor.xyz, specularStrength * reflectivity );
		#elif defined( ENVMAP_BLENDING_MIX )
			outgoingLight = mix( outgoingLight, envColor.xyz, specularStrength * reflectivity );
		#elif defined( ENVMAP_BLENDING_ADD )
			outgoingLight += envColor.xyz * specularStrength * reflectivity;
		#endif
	#endif
#endif`,py=`#ifdef USE_ENVMAP
	uniform float envMapIntensity;
	uniform mat3 envMapRotation;
	uniform samplerCube envMap;
	#ifdef ENVMAP_TYPE_PMREM
		float roughnessToMip( const in float roughness ) {
			float r = clamp( roughness, 0.0, 1.0 );
			return ENVMAP_MAX_LOD * r * ( 2.0 - r );
		}
	#endif
#endif`,my=`#ifdef USE_ENVMAP
	uniform float reflectivity;
	#if defined( USE_BUMPMAP ) || defined( USE_NORMALMAP ) || defined( PHONG ) || defined( LAMBERT )
		#define ENV_WORLDPOS
	#endif
	#ifdef ENV_WORLDPOS
		varying vec3 vWorldPosition;
		uniform float refractionRatio;
	#else
		varying vec3 vReflect;
	#endif
#endif`,gy=`#ifdef USE_ENVMAP
	#if defined( USE_BUMPMAP ) || defined( USE_NORMALMAP ) || defined( PHONG ) || defined( LAMBERT )
		#define ENV_WORLDPOS
	#endif
	#ifdef ENV_WORLDPOS
		
		varying vec3 vWorldPosition;
	#else
		varying vec3 vReflect;
		uniform float refractionRatio;
	#endif
#endif`,_y=`#ifdef USE_ENVMAP
	#ifdef ENV_WORLDPOS
		vWorldPosition = worldPosition.xyz;
	#else
		vec3 cameraToVertex;
		if ( isOrthographic ) {
			cameraToVertex = normalize( vec3( - viewMatrix[ 0 ][ 2 ], - viewMatrix[ 1 ][ 2 ], - viewMatrix[ 2 ][ 2 ] ) );
		} else {
			cameraToVertex = normalize( worldPosition.xyz - cameraPosition );
		}
		vec3 worldNormal = transformNormalByInverseViewMatrix( transformedNormal, viewMatrix );
		#ifdef ENVMAP_MODE_REFLECTION
			vReflect = reflect( cameraToVertex, worldNormal );
		#else
			vReflect = refract( cameraToVertex, worldNormal, refractionRatio );
		#endif
	#endif
#endif`,xy=`#ifdef USE_FOG
	vFogDepth = - mvPosition.z;
#endif`,yy=`#ifdef USE_FOG
	varying float vFogDepth;
#endif`,vy=`#ifdef USE_FOG
	#ifdef FOG_EXP2
		float fogFactor = 1.0 - exp( - fogDensity * fogDensity * vFogDepth * vFogDepth );
	#else
		float fogFactor = smoothstep( fogNear, fogFar, vFogDepth );
	#endif
	gl_FragColor.rgb = mix( gl_FragColor.rgb, fogColor, fogFactor );
#endif`,My=`#ifdef USE_FOG
	uniform vec3 fogColor;
	varying float vFogDepth;
	#ifdef FOG_EXP2
		uniform float fogDensity;
	#else
		uniform float fogNear;
		uniform float fogFar;
	#endif
#endif`,Sy=`#ifdef USE_GRADIENTMAP
	uniform sampler2D gradientMap;
#endif
vec3 getGradientIrradiance( vec3 normal, vec3 lightDirection ) {
	float dotNL = dot( normal, lightDirection );
	vec2 coord = vec2( dotNL * 0.5 + 0.5, 0.0 );
	#ifdef USE_GRADIENTMAP
		return vec3( texture2D( gradientMap, coord ).r );
	#else
		vec2 fw = fwidth( coord ) * 0.5;
		return mix( vec3( 0.7 ), vec3( 1.0 ), smoothstep( 0.7 - fw.x, 0.7 + fw.x, coord.x ) );
	#endif
}`,by=`#ifdef USE_LIGHTMAP
	uniform sampler2D lightMap;
	uniform float lightMapIntensity;
#endif`,wy=`LambertMaterial material;
material.diffuseColor = diffuseColor.rgb;
material.specularStrength = specularStrength;`,Ay=`varying vec3 vViewPosition;
struct LambertMaterial {
	vec3 diffuseColor;
	float specularStrength;
};
void RE_Direct_Lambert( const in IncidentLight directLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in LambertMaterial material, inout ReflectedLight reflectedLight ) {
	float dotNL = saturate( dot( geometryNormal, directLight.direction ) );
	vec3 irradiance = dotNL * directLight.color;
	reflectedLight.directDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
void RE_IndirectDiffuse_Lambert( const in vec3 irradiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in LambertMaterial material, inout ReflectedLight reflectedLight ) {
	reflectedLight.indirectDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
#define RE_Direct				RE_Direct_Lambert
#define RE_IndirectDiffuse		RE_IndirectDiffuse_Lambert`,Ey=`uniform bool receiveShadow;
uniform vec3 ambientLightColor;
#if defined( USE_LIGHT_PROBES )
	uniform vec3 lightProbe[ 9 ];
#endif
vec3 shGetIrradianceAt( in vec3 normal, in vec3 shCoefficients[ 9 ] ) {
	float x = normal.x, y = normal.y, z = normal.z;
	vec3 result = shCoefficients[ 0 ] * 0.886227;
	result += shCoefficients[ 1 ] * 2.0 * 0.511664 * y;
	result += shCoefficients[ 2 ] * 2.0 * 0.511664 * z;
	result += shCoefficients[ 3 ] * 2.0 * 0.511664 * x;
	result += shCoefficients[ 4 ] * 2.0 * 0.429043 * x * y;
	result += shCoefficients[ 5 ] * 2.0 * 0.429043 * y * z;
	result += shCoefficients[ 6 ] * ( 0.743125 * z * z - 0.247708 );
	result += shCoefficients[ 7 ] * 2.0 * 0.429043 * x * z;
	result += shCoefficients[ 8 ] * 0.429043 * ( x * x - y * y );
	return result;
}
vec3 getLightProbeIrradiance( const in vec3 lightProbe[ 9 ], const in vec3 normal ) {
	vec3 worldNormal = transformNormalByInverseViewMatrix( normal, viewMatrix );
	vec3 irradiance = shGetIrradianceAt( worldNormal, lightProbe );
	return irradiance;
}
vec3 getAmbientLightIrradiance( const in vec3 ambientLightColor ) {
	vec3 irradiance = ambientLightColor;
	return irradiance;
}
float getDistanceAttenuation( const in float lightDistance, const in float cutoffDistance, const in float decayExponent ) {
	float distanceFalloff = 1.0 / max( pow( lightDistance, decayExponent ), 0.01 );
	if ( cutoffDistance > 0.0 ) {
		distanceFalloff *= pow2( saturate( 1.0 - pow4( lightDistance / cutoffDistance ) ) );
	}
	return distanceFalloff;
}
float getSpotAttenuation( const in float coneCosine, const in float penumbraCosine, const in float angleCosine ) {
	return smoothstep( coneCosine, penumbraCosine, angleCosine );
}
#if NUM_SUN_LIGHTS > 0
	struct SunLight {
		vec3 direction;
		vec3 color;
	};
	uniform SunLight sunLights[ NUM_SUN_LIGHTS ];
	void getSunLightInfo( const in SunLight sunLight, out IncidentLight light ) {
		light.color = sunLight.color;
		light.direction = sunLight.direction;
		light.visible = true;
	}
#endif
#if NUM_DIR_LIGHTS > 0
	struct DirectionalLight {
		vec3 direction;
		vec3 color;
	};
	uniform DirectionalLight directionalLights[ NUM_DIR_LIGHTS ];
	void getDirectionalLightInfo( const in DirectionalLight directionalLight, out IncidentLight light ) {
		light.color = directionalLight.color;
		light.direction = directionalLight.direction;
		light.visible = true;
	}
#endif
#if NUM_POINT_LIGHTS > 0
	struct PointLight {
		vec3 position;
		vec3 color;
		float distance;
		float decay;
	};
	uniform PointLight pointLights[ NUM_POINT_LIGHTS ];
	void getPointLightInfo( const in PointLight pointLight, const in vec3 geometryPosition, out IncidentLight light ) {
		vec3 lVector = pointLight.position - geometryPosition;
		light.direction = normalize( lVector );
		float lightDistance = length( lVector );
		light.color = pointLight.color;
		light.color *= getDistanceAttenuation( lightDistance, pointLight.distance, pointLight.decay );
		light.visible = ( light.color != vec3( 0.0 ) );
	}
#endif
#if NUM_SPOT_LIGHTS > 0
	struct SpotLight {
		vec3 position;
		vec3 direction;
		vec3 color;
		float distance;
		float decay;
		float coneCos;
		float penumbraCos;
	};
	uniform SpotLight spotLights[ NUM_SPOT_LIGHTS ];
	void getSpotLightInfo( const in SpotLight spotLight, const in vec3 geometryPosition, out IncidentLight light ) {
		vec3 lVector = spotLight.position - geometryPosition;
		light.direction = normalize( lVector );
		float angleCos = dot( light.direction, spotLight.direction );
		float spotAttenuation = getSpotAttenuation( spotLight.coneCos, spotLight.penumbraCos, angleCos );
		if ( spotAttenuation > 0.0 ) {
			float lightDistance = length( lVector );
			light.color = spotLight.color * spotAttenuation;
			light.color *= getDistanceAttenuation( lightDistance, spotLight.distance, spotLight.decay );
			light.visible = ( light.color != vec3( 0.0 ) );
		} else {
			light.color = vec3( 0.0 );
			light.visible = false;
		}
	}
#endif
#if NUM_RECT_AREA_LIGHTS > 0
	struct RectAreaLight {
		vec3 color;
		vec3 position;
		vec3 halfWidth;
		vec3 halfHeight;
	};
	uniform sampler2D ltc_1;	uniform sampler2D ltc_2;
	uniform RectAreaLight rectAreaLights[ NUM_RECT_AREA_LIGHTS ];
#endif
#if NUM_HEMI_LIGHTS > 0
	struct HemisphereLight {
		vec3 direction;
		vec3 skyColor;
		vec3 groundColor;
	};
	uniform HemisphereLight hemisphereLights[ NUM_HEMI_LIGHTS ];
	vec3 getHemisphereLightIrradiance( const in HemisphereLight hemiLight, const in vec3 normal ) {
		float dotNL = dot( normal, hemiLight.direction );
		float hemiDiffuseWeight = 0.5 * dotNL + 0.5;
		vec3 irradiance = mix( hemiLight.groundColor, hemiLight.skyColor, hemiDiffuseWeight );
		return irradiance;
	}
#endif
#include <lightprobes_pars_fragment>`,Ty=`#ifdef USE_ENVMAP
	vec3 getIBLIrradiance( const in vec3 normal ) {
		#ifdef ENVMAP_TYPE_PMREM
			vec3 worldNormal = transformNormalByInverseViewMatrix( normal, viewMatrix );
			vec4 envMapColor = textureLod( envMap, envMapRotation * worldNormal, ENVMAP_MAX_LOD );
			return PI * envMapColor.rgb * envMapIntensity;
		#else
			return vec3( 0.0 );
		#endif
	}
	vec3 getIBLRadiance( const in vec3 viewDir, const in vec3 normal, const in float roughness ) {
		#ifdef ENVMAP_TYPE_PMREM
			vec3 reflectVec = reflect( - viewDir, normal );
			reflectVec = normalize( mix( reflectVec, normal, pow4( roughness ) ) );
			reflectVec = transformDirectionByInverseViewMatrix( reflectVec, viewMatrix );
			vec4 envMapColor = textureLod( envMap, envMapRotation * reflectVec, roughnessToMip( roughness ) );
			return envMapColor.rgb * envMapIntensity;
		#else
			return vec3( 0.0 );
		#endif
	}
	#ifdef USE_RETROREFLECTION
		vec3 getIBLRetroRadiance( const in vec3 viewDir, const in vec3 normal, const in float roughness ) {
			#ifdef ENVMAP_TYPE_PMREM
				vec3 retroVec = normalize( mix( viewDir, normal, pow4( roughness ) ) );
				retroVec = transformDirectionByInverseViewMatrix( retroVec, viewMatrix );
				vec4 envMapColor = textureLod( envMap, envMapRotation * retroVec, roughnessToMip( roughness ) );
				return envMapColor.rgb * envMapIntensity;
			#else
				return vec3( 0.0 );
			#endif
		}
	#endif
	#ifdef USE_ANISOTROPY
		vec3 getIBLAnisotropyRadiance( const in vec3 viewDir, const in vec3 normal, const in float roughness, const in vec3 bitangent, const in float anisotropy ) {
			#ifdef ENVMAP_TYPE_PMREM
				vec3 bentNormal = cross( bitangent, viewDir );
				bentNormal = normalize( cross( bentNormal, bitangent ) );
				bentNormal = normalize( mix( bentNormal, normal, pow2( pow2( 1.0 - anisotropy * ( 1.0 - roughness ) ) ) ) );
				return getIBLRadiance( viewDir, bentNormal, roughness );
			#else
				return vec3( 0.0 );
			#endif
		}
		#ifdef USE_RETROREFLECTION
			vec3 getIBLAnisotropyRetroRadiance( const in vec3 viewDir, const in vec3 normal, const in float roughness, const in vec3 bitangent, const in float anisotropy ) {
				#ifdef ENVMAP_TYPE_PMREM
					vec3 bentNormal = cross( bitangent, viewDir );
					bentNormal = normalize( cross( bentNormal, bitangent ) );
					bentNormal = normalize( mix( bentNormal, normal, pow2( pow2( 1.0 - anisotropy * ( 1.0 - roughness ) ) ) ) );
					return getIBLRetroRadiance( viewDir, bentNormal, roughness );
				#else
					return vec3( 0.0 );
				#endif
			}
		#endif
	#endif
#endif`,Ry=`ToonMaterial material;
material.diffuseColor = diffuseColor.rgb;`,Cy=`varying vec3 vViewPosition;
struct ToonMaterial {
	vec3 diffuseColor;
};
void RE_Direct_Toon( const in IncidentLight directLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in ToonMaterial material, inout ReflectedLight reflectedLight ) {
	vec3 irradiance = getGradientIrradiance( geometryNormal, directLight.direction ) * directLight.color;
	reflectedLight.directDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
void RE_IndirectDiffuse_Toon( const in vec3 irradiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in ToonMaterial material, inout ReflectedLight reflectedLight ) {
	reflectedLight.indirectDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
#define RE_Direct				RE_Direct_Toon
#define RE_IndirectDiffuse		RE_IndirectDiffuse_Toon`,Iy=`BlinnPhongMaterial material;
material.diffuseColor = diffuseColor.rgb;
material.specularColor = specular;
material.specularShininess = shininess;
material.specularStrength = specularStrength;`,Py=`varying vec3 vViewPosition;
struct BlinnPhongMaterial {
	vec3 diffuseColor;
	vec3 specularColor;
	float specularShininess;
	float specularStrength;
};
void RE_Direct_BlinnPhong( const in IncidentLight directLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in BlinnPhongMaterial material, inout ReflectedLight reflectedLight ) {
	float dotNL = saturate( dot( geometryNormal, directLight.direction ) );
	vec3 irradiance = dotNL * directLight.color;
	reflectedLight.directDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
	reflectedLight.directSpecular += irradiance * BRDF_BlinnPhong( directLight.direction, geometryViewDir, geometryNormal, material.specularColor, material.specularShininess ) * material.specularStrength;
}
void RE_IndirectDiffuse_BlinnPhong( const in vec3 irradiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in BlinnPhongMaterial material, inout ReflectedLight reflectedLight ) {
	reflectedLight.indirectDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
#define RE_Direct				RE_Direct_BlinnPhong
#define RE_IndirectDiffuse		RE_IndirectDiffuse_BlinnPhong`,Ly=`PhysicalMaterial material;
material.diffuseColor = diffuseColor.rgb;
material.diffuseContribution = diffuseColor.rgb * ( 1.0 - metalnessFactor );
material.metalness = metalnessFactor;
vec3 dxy = max( abs( dFdx( nonPerturbedNormal ) ), abs( dFdy( nonPerturbedNormal ) ) );
float geometryRoughness = max( max( dxy.x, dxy.y ), dxy.z );
material.roughness = max( roughnessFactor, 0.045 );
material.roughness += geometryRoughness;
material.roughness = min( material.roughness, 1.0 );
#ifdef USE_DIFFUSE_ROUGHNESS
	float diffuseRoughnessFactor = diffuseRoughness;
	#ifdef USE_DIFFUSE_ROUGHNESSMAP
		diffuseRoughnessFactor *= texture2D( diffuseRoughnessMap, vDiffuseRoughnessMapUv ).r;
	#endif
	material.diffuseRoughness = saturate( diffuseRoughnessFactor );
#endif
#ifdef IOR
	material.ior = ior;
	#ifdef USE_SPECULAR
		float specularIntensityFactor = specularIntensity;
		vec3 specularColorFactor = specularColor;
		#ifdef USE_SPECULAR_COLORMAP
			specularColorFactor *= texture2D( specularColorMap, vSpecularColorMapUv ).rgb;
		#endif
		#ifdef USE_SPECULAR_INTENSITYMAP
			specularIntensityFactor *= texture2D( specularIntensityMap, vSpecularIntensityMapUv ).a;
		#endif
		material.specularF90 = mix( specularIntensityFactor, 1.0, metalnessFactor );
	#else
		float specularIntensityFactor = 1.0;
		vec3 specularColorFactor = vec3( 1.0 );
		material.specularF90 = 1.0;
	#endif
	material.specularColor = min( pow2( ( material.ior - 1.0 ) / ( material.ior + 1.0 ) ) * specularColorFactor, vec3( 1.0 ) ) * specularIntensityFactor;
	material.specularColorBlended = mix( material.specularColor, diffuseColor.rgb, metalnessFactor );
#else
	material.specularColor = vec3( 0.04 );
	material.specularColorBlended = mix( material.specularColor, diffuseColor.rgb, metalnessFactor );
	material.specularF90 = 1.0;
#endif
#ifdef USE_CLEARCOAT
	material.clearcoat = clearcoat;
	material.clearcoatRoughness = clearcoatRoughness;
	material.clearcoatF0 = vec3( 0.04 );
	material.clearcoatF90 = 1.0;
	#ifdef USE_CLEARCOATMAP
		material.clearcoat *= texture2D( clearcoatMap, vClearcoatMapUv ).x;
	#endif
	#ifdef USE_CLEARCOAT_ROUGHNESSMAP
		material.clearcoatRoughness *= texture2D( clearcoatRoughnessMap, vClearcoatRoughnessMapUv ).y;
	#endif
	material.clearcoat = saturate( material.clearcoat );	material.clearcoatRoughness = max( material.clearcoatRoughness, 0.045 );
	material.clearcoatRoughness += geometryRoughness;
	material.clearcoatRoughness = min( material.clearcoatRoughness, 1.0 );
#endif
#ifdef USE_DISPERSION
	material.dispersion = dispersion;
#endif
#ifdef USE_RETROREFLECTION
	material.retroreflectivity = retroreflectivity;
#endif
#ifdef USE_IRIDESCENCE
	material.iridescence = iridescence;
	material.iridescenceIOR = iridescenceIOR;
	#ifdef USE_IRIDESCENCEMAP
		material.iridescence *= texture2D( iridescenceMap, vIridescenceMapUv ).r;
	#endif
	#ifdef USE_IRIDESCENCE_THICKNESSMAP
		material.iridescenceThickness = (iridescenceThicknessMaximum - iridescenceThicknessMinimum) * texture2D( iridescenceThicknessMap, vIridescenceThicknessMapUv ).g + iridescenceThicknessMinimum;
	#else
		material.iridescenceThickness = iridescenceThicknessMaximum;
	#endif
#endif
#ifdef USE_SHEEN
	material.sheenColor = sheenColor;
	#ifdef USE_SHEEN_COLORMAP
		material.sheenColor *= texture2D( sheenColorMap, vSheenColorMapUv ).rgb;
	#endif
	material.sheenRoughness = clamp( sheenRoughness, 0.0001, 1.0 );
	#ifdef USE_SHEEN_ROUGHNESSMAP
		material.sheenRoughness *= texture2D( sheenRoughnessMap, vSheenRoughnessMapUv ).a;
	#endif
#endif
#ifdef USE_ANISOTROPY
	#ifdef USE_ANISOTROPYMAP
		mat2 anisotropyMat = mat2( anisotropyVector.x, anisotropyVector.y, - anisotropyVector.y, anisotropyVector.x );
		vec3 anisotropyPolar = texture2D( anisotropyMap, vAnisotropyMapUv ).rgb;
		vec2 anisotropyV = anisotropyMat * normalize( 2.0 * anisotropyPolar.rg - vec2( 1.0 ) ) * anisotropyPolar.b;
	#else
		vec2 anisotropyV = anisotropyVector;
	#endif
	material.anisotropy = length( anisotropyV );
	if( material.anisotropy == 0.0 ) {
		anisotropyV = vec2( 1.0, 0.0 );
	} else {
		anisotropyV /= material.anisotropy;
		material.anisotropy = saturate( material.anisotropy );
	}
	material.alphaT = mix( pow2( material.roughness ), 1.0, pow2( material.anisotropy ) );
	material.anisotropyT = tbn[ 0 ] * anisotropyV.x + tbn[ 1 ] * anisotropyV.y;
	material.anisotropyB = tbn[ 1 ] * anisotropyV.x - tbn[ 0 ] * anisotropyV.y;
#endif`,Ny=`uniform sampler2D dfgLUT;
struct PhysicalMaterial {
	vec3 diffuseColor;
	vec3 diffuseContribution;
	vec3 specularColor;
	vec3 specularColorBlended;
	float roughness;
	float metalness;
	float specularF90;
	float dispersion;
	vec2 dfg;
	vec3 multiScatteringCompensation;
	#ifdef USE_DIFFUSE_ROUGHNESS
		float diffuseRoughness;
	#endif
	#ifdef USE_RETROREFLECTION
		float retroreflectivity;
	#endif
	#ifdef USE_CLEARCOAT
		float clearcoat;
		float clearcoatRoughness;
		vec3 clearcoatF0;
		float clearcoatF90;
	#endif
	#ifdef USE_IRIDESCENCE
		float iridescence;
		float iridescenceIOR;
		float iridescenceThickness;
		vec3 iridescenceFresnel;
		vec3 iridescenceF0Dielectric;
		vec3 iridescenceF0Metallic;
	#endif
	#ifdef USE_SHEEN
		vec3 sheenColor;
		float sheenRoughness;
	#endif
	#ifdef IOR
		float ior;
	#endif
	#ifdef USE_TRANSMISSION
		float transmission;
		float transmissionAlpha;
		float thickness;
		float attenuationDistance;
		vec3 attenuationColor;
	#endif
	#ifdef USE_ANISOTROPY
		float anisotropy;
		float alphaT;
		vec3 anisotropyT;
		vec3 anisotropyB;
	#endif
};
vec3 clearcoatSpecularDirect = vec3( 0.0 );
vec3 clearcoatSpecularIndirect = vec3( 0.0 );
vec3 sheenSpecularDirect = vec3( 0.0 );
vec3 sheenSpecularIndirect = vec3(0.0 );
vec3 Schlick_to_F0( const in vec3 f, const in float f90, const in float dotVH ) {
    float x = clamp( 1.0 - dotVH, 0.0, 1.0 );
    float x2 = x * x;
    float x5 = clamp( x * x2 * x2, 0.0, 0.9999 );
    return ( f - vec3( f90 ) * x5 ) / ( 1.0 - x5 );
}
#ifdef USE_DIFFUSE_ROUGHNESS
	const float EON_EPSILON = 1e-7;
	float FON_DirectionalAlbedo( const in float mu, const in float roughness, const in float A ) {
		float muComp = 1.0 - mu;
		float gOverPi = muComp * ( 0.0571085289 + muComp * ( 0.491881867 + muComp * ( - 0.332181442 + muComp * 0.0714429953 ) ) );
		return A * ( 1.0 + roughness * gOverPi );
	}
	vec3 BRDF_EON( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, const in vec3 diffuseColor, const in float roughness ) {
		vec3 rho = saturate( diffuseColor );
		if ( roughness <= EON_EPSILON ) return BRDF_Lambert( rho );
		float dotNL = saturate( dot( normal, lightDir ) );
		float dotNV = saturate( dot( normal, viewDir ) );
		float s = dot( lightDir, viewDir ) - dotNL * dotNV;
		float sOverT = ( s > 0.0 ) ? s / max( max( dotNL, dotNV ), EON_EPSILON ) : s;
		float A = 1.0 / ( 1.0 + ( 0.5 - 2.0 / ( 3.0 * PI ) ) * roughness );
		vec3 singleScatter = rho * RECIPROCAL_PI * A * ( 1.0 + roughness * sOverT );
		float averageAlbedo = A * ( 1.0 + ( 2.0 / 3.0 - 28.0 / ( 15.0 * PI ) ) * roughness );
		float albedoV = FON_DirectionalAlbedo( dotNV, roughness, A );
		float albedoL = FON_DirectionalAlbedo( dotNL, roughness, A );
		vec3 rhoMultiScatter = rho * rho * averageAlbedo / max( vec3( EON_EPSILON ), vec3( 1.0 ) - rho * ( 1.0 - averageAlbedo ) );
		vec3 multiScatter = rhoMultiScatter * RECIPROCAL_PI
			* max( EON_EPSILON, 1.0 - albedoV )
			* max( EON_EPSILON, 1.0 - albedoL )
			/ max( EON_EPSILON, 1.0 - averageAlbedo );
		return singleScatter + multiScatter;
	}
	vec3 EON_DirectionalAlbedo( const in vec3 diffuseColor, const in float roughness, const in float dotNV ) {
		vec3 rho = saturate( diffuseColor );
		if ( roughness <= EON_EPSILON ) return rho;
		float A = 1.0 / ( 1.0 + ( 0.5 - 2.0 / ( 3.0 * PI ) ) * roughness );
		float directionalAlbedo = FON_DirectionalAlbedo( dotNV, roughness, A );
		float averageAlbedo = A * ( 1.0 + ( 2.0 / 3.0 - 28.0 / ( 15.0 * PI ) ) * roughness );
		vec3 rhoMultiScatter = rho * rho * averageAlbedo / max( vec3( EON_EPSILON ), vec3( 1.0 ) - rho * ( 1.0 - averageAlbedo ) );
		return rho * directionalAlbedo + rhoMultiScatter * ( 1.0 - directionalAlbedo );
	}
#endif
float V_GGX_SmithCorrelated( const in float alpha, const in float dotNL, const in float dotNV ) {
	float a2 = pow2( alpha );
	float gv = dotNL * sqrt( a2 + ( 1.0 - a2 ) * pow2( dotNV ) );
	float gl = dotNV * sqrt( a2 + ( 1.0 - a2 ) * pow2( dotNL ) );
	return 0.5 / max( gv + gl, EPSILON );
}
float D_GGX( const in float alpha, const in float dotNH ) {
	float a2 = pow2( alpha );
	float denom = pow2( dotNH ) * ( a2 - 1.0 ) + 1.0;
	return RECIPROCAL_PI * a2 / pow2( denom );
}
#ifdef USE_ANISOTROPY
	float V_GGX_SmithCorrelated_Anisotropic( const in float alphaT, const in float alphaB, const in float dotTV, const in float dotBV, const in float dotTL, const in float dotBL, const in float dotNV, const in float dotNL ) {
		float gv = dotNL * length( vec3( alphaT * dotTV, alphaB * dotBV, dotNV ) );
		float gl = dotNV * length( vec3( alphaT * dotTL, alphaB * dotBL, dotNL ) );
		return 0.5 / max( gv + gl, EPSILON );
	}
	float D_GGX_Anisotropic( const in float alphaT, const in float alphaB, const in float dotNH, const in float dotTH, const in float dotBH ) {
		float a2 = alphaT * alphaB;
		highp vec3 v = vec3( alphaB * dotTH, alphaT * dotBH, a2 * dotNH );
		highp float v2 = dot( v, v );
		float w2 = a2 / v2;
		return RECIPROCAL_PI * a2 * pow2 ( w2 );
	}
#endif
#ifdef USE_CLEARCOAT
	vec3 BRDF_GGX_Clearcoat( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, const in PhysicalMaterial material) {
		vec3 f0 = material.clearcoatF0;
		float f90 = material.clearcoatF90;
		float roughness = max( material.clearcoatRoughness, 0.045 );
		float alpha = pow2( roughness );
		vec3 halfDir = normalize( lightDir + viewDir );
		float dotNL = saturate( dot( normal, lightDir ) );
		float dotNV = saturate( dot( normal, viewDir ) );
		float dotNH = saturate( dot( normal, halfDir ) );
		float dotVH = saturate( dot( viewDir, halfDir ) );
		vec3 F = F_Schlick( f0, f90, dotVH );
		float V = V_GGX_SmithCorrelated( alpha, dotNL, dotNV );
		float D = D_GGX( alpha, dotNH );
		return F * ( V * D );
	}
#endif
vec3 BRDF_GGX( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, const in PhysicalMaterial material ) {
	vec3 f0 = material.specularColorBlended;
	float f90 = material.specularF90;
	float roughness = max( material.roughness, 0.045 );
	float alpha = pow2( roughness );
	vec3 halfDir = normalize( lightDir + viewDir );
	float dotNL = saturate( dot( normal, lightDir ) );
	float dotNV = saturate( dot( normal, viewDir ) );
	float dotNH = saturate( dot( normal, halfDir ) );
	float dotVH = saturate( dot( viewDir, halfDir ) );
	vec3 F = F_Schlick( f0, f90, dotVH );
	#ifdef USE_IRIDESCENCE
		F = mix( F, material.iridescenceFresnel, material.iridescence );
	#endif
	#ifdef USE_ANISOTROPY
		float dotTL = dot( material.anisotropyT, lightDir );
		float dotTV = dot( material.anisotropyT, viewDir );
		float dotTH = dot( material.anisotropyT, halfDir );
		float dotBL = dot( material.anisotropyB, lightDir );
		float dotBV = dot( material.anisotropyB, viewDir );
		float dotBH = dot( material.anisotropyB, halfDir );
		float alphaT = max( material.alphaT, alpha );
		float V = V_GGX_SmithCorrelated_Anisotropic( alphaT, alpha, dotTV, dotBV, dotTL, dotBL, dotNV, dotNL );
		float D = D_GGX_Anisotropic( alphaT, alpha, dotNH, dotTH, dotBH );
	#else
		float V = V_GGX_SmithCorrelated( alpha, dotNL, dotNV );
		float D = D_GGX( alpha, dotNH );
	#endif
	return F * ( V * D );
}
vec2 LTC_Uv( const in vec3 N, const in vec3 V, const in float roughness ) {
	const float LUT_SIZE = 64.0;
	const float LUT_SCALE = ( LUT_SIZE - 1.0 ) / LUT_SIZE;
	const float LUT_BIAS = 0.5 / LUT_SIZE;
	float dotNV = saturate( dot( N, V ) );
	vec2 uv = vec2( roughness, sqrt( 1.0 - dotNV ) );
	uv = uv * LUT_SCALE + LUT_BIAS;
	return uv;
}
float LTC_ClippedSphereFormFactor( const in vec3 f ) {
	float l = length( f );
	return max( ( l * l + f.z ) / ( l + 1.0 ), 0.0 );
}
vec3 LTC_EdgeVectorFormFactor( const in vec3 v1, const in vec3 v2 ) {
	float x = dot( v1, v2 );
	float y = abs( x );
	float a = 0.8543985 + ( 0.4965155 + 0.0145206 * y ) * y;
	float b = 3.4175940 + ( 4.1616724 + y ) * y;
	float v = a / b;
	float theta_sintheta = ( x > 0.0 ) ? v : 0.5 * inversesqrt( max( 1.0 - x * x, 1e-7 ) ) - v;
	return cross( v1, v2 ) * theta_sintheta;
}
vec3 LTC_Evaluate( const in vec3 N, const in vec3 V, const in vec3 P, const in mat3 mInv, const in vec3 rectCoords[ 4 ] ) {
	vec3 v1 = rectCoords[ 1 ] - rectCoords[ 0 ];
	vec3 v2 = rectCoords[ 3 ] - rectCoords[ 0 ];
	vec3 lightNormal = cross( v1, v2 );
	if( dot( lightNormal, P - rectCoords[ 0 ] ) < 0.0 ) return vec3( 0.0 );
	vec3 T1, T2;
	T1 = normalize( V - N * dot( V, N ) );
	T2 = - cross( N, T1 );
	mat3 mat = mInv * transpose( mat3( T1, T2, N ) );
	vec3 coords[ 4 ];
	coords[ 0 ] = mat * ( rectCoords[ 0 ] - P );
	coords[ 1 ] = mat * ( rectCoords[ 1 ] - P );
	coords[ 2 ] = mat * ( rectCoords[ 2 ] - P );
	coords[ 3 ] = mat * ( rectCoords[ 3 ] - P );
	coords[ 0 ] = normalize( coords[ 0 ] );
	coords[ 1 ] = normalize( coords[ 1 ] );
	coords[ 2 ] = normalize( coords[ 2 ] );
	coords[ 3 ] = normalize( coords[ 3 ] );
	vec3 vectorFormFactor = vec3( 0.0 );
	vectorFormFactor += LTC_EdgeVectorFormFactor( coords[ 0 ], coords[ 1 ] );
	vectorFormFactor += LTC_EdgeVectorFormFactor( coords[ 1 ], coords[ 2 ] );
	vectorFormFactor += LTC_EdgeVectorFormFactor( coords[ 2 ], coords[ 3 ] );
	vectorFormFactor += LTC_EdgeVectorFormFactor( coords[ 3 ], coords[ 0 ] );
	float result = LTC_ClippedSphereFormFactor( vectorFormFactor );
	return vec3( result );
}
#if defined( USE_SHEEN )
float D_Charlie( float roughness, float dotNH ) {
	float alpha = pow2( roughness );
	float invAlpha = 1.0 / alpha;
	float cos2h = dotNH * dotNH;
	float sin2h = max( 1.0 - cos2h, 0.0078125 );
	return ( 2.0 + invAlpha ) * pow( sin2h, invAlpha * 0.5 ) / ( 2.0 * PI );
}
float V_Neubelt( float dotNV, float dotNL ) {
	return saturate( 1.0 / ( 4.0 * ( dotNL + dotNV - dotNL * dotNV ) ) );
}
vec3 BRDF_Sheen( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, vec3 sheenColor, const in float sheenRoughness ) {
	vec3 halfDir = normalize( lightDir + viewDir );
	float dotNL = saturate( dot( normal, lightDir ) );
	float dotNV = saturate( dot( normal, viewDir ) );
	float dotNH = saturate( dot( normal, halfDir ) );
	float D = D_Charlie( sheenRoughness, dotNH );
	float V = V_Neubelt( dotNV, dotNL );
	return sheenColor * ( D * V );
}
#endif
float IBLSheenBRDF( const in vec3 normal, const in vec3 viewDir, const in float roughness ) {
	float dotNV = saturate( dot( normal, viewDir ) );
	float r2 = roughness * roughness;
	float rInv = 1.0 / ( roughness + 0.1 );
	float a = -1.9362 + 1.0678 * roughness + 0.4573 * r2 - 0.8469 * rInv;
	float b = -0.6014 + 0.5538 * roughness - 0.4670 * r2 - 0.1255 * rInv;
	float DG = exp( a * dotNV + b );
	return saturate( DG );
}
vec3 EnvironmentBRDF( const in vec3 normal, const in vec3 viewDir, const in vec3 specularColor, const in float specularF90, const in float roughness ) {
	float dotNV = saturate( dot( normal, viewDir ) );
	vec2 fab = texture2D( dfgLUT, vec2( roughness, dotNV ) ).rg;
	return specularColor * fab.x + specularF90 * fab.y;
}
#ifdef USE_IRIDESCENCE
void computeMultiscatteringIridescence( const in vec2 fab, const in vec3 specularColor, const in float specularF90, const in float iridescence, const in vec3 iridescenceF0, inout vec3 singleScatter, inout vec3 multiScatter ) {
#else
void computeMultiscattering( const in vec2 fab, const in vec3 specularColor, const in float specularF90, inout vec3 singleScatter, inout vec3 multiScatter ) {
#endif
	#ifdef USE_IRIDESCENCE
		vec3 Fr = mix( specularColor, iridescenceF0, iridescence );
	#else
		vec3 Fr = specularColor;
	#endif
	vec3 FssEss = Fr * fab.x + specularF90 * fab.y;
	float Ess = fab.x + fab.y;
	float Ems = 1.0 - Ess;
	vec3 Favg = Fr + ( 1.0 - Fr ) * 0.047619;	vec3 Fms = FssEss * Favg / ( 1.0 - Ems * Favg );
	singleScatter += FssEss;
	multiScatter += Fms * Ems;
}
#if NUM_RECT_AREA_LIGHTS > 0
	void RE_Direct_RectArea_Physical( const in RectAreaLight rectAreaLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in PhysicalMaterial material, inout ReflectedLight reflectedLight ) {
		vec3 normal = geometryNormal;
		vec3 viewDir = geometryViewDir;
		vec3 position = geometryPosition;
		vec3 lightPos = rectAreaLight.position;
		vec3 halfWidth = rectAreaLight.halfWidth;
		vec3 halfHeight = rectAreaLight.halfHeight;
		vec3 lightColor = rectAreaLight.color;
		float roughness = material.roughness;
		vec3 rectCoords[ 4 ];
		rectCoords[ 0 ] = lightPos + halfWidth - halfHeight;		rectCoords[ 1 ] = lightPos - halfWidth - halfHeight;
		rectCoords[ 2 ] = lightPos - halfWidth + halfHeight;
		rectCoords[ 3 ] = lightPos + halfWidth + halfHeight;
		vec2 uv = LTC_Uv( normal, viewDir, roughness );
		vec4 t1 = texture2D( ltc_1, uv );
		vec4 t2 = texture2D( ltc_2, uv );
		mat3 mInv = mat3(
			vec3( t1.x, 0, t1.y ),
			vec3(    0, 1,    0 ),
			vec3( t1.z, 0, t1.w )
		);
		vec3 fresnel = ( material.specularColorBlended * t2.x + ( material.specularF90 - material.specularColorBlended ) * t2.y );
		reflectedLight.directSpecular += lightColor * fresnel * LTC_Evaluate( normal, viewDir, position, mInv, rectCoords );
		reflectedLight.directDiffuse += lightColor * material.diffuseContribution * LTC_Evaluate( normal, viewDir, position, mat3( 1.0 ), rectCoords );
		#ifdef USE_CLEARCOAT
			vec3 Ncc = geometryClearcoatNormal;
			vec2 uvClearcoat = LTC_Uv( Ncc, viewDir, material.clearcoatRoughness );
			vec4 t1Clearcoat = texture2D( ltc_1, uvClearcoat );
			vec4 t2Clearcoat = texture2D( ltc_2, uvClearcoat );
			mat3 mInvClearcoat = mat3(
				vec3( t1Clearcoat.x, 0, t1Clearcoat.y ),
				vec3(             0, 1,             0 ),
				vec3( t1Clearcoat.z, 0, t1Clearcoat.w )
			);
			vec3 fresnelClearcoat = material.clearcoatF0 * t2Clearcoat.x + ( material.clearcoatF90 - material.clearcoatF0 ) * t2Clearcoat.y;
			clearcoatSpecularDirect += lightColor * fresnelClearcoat * LTC_Evaluate( Ncc, viewDir, position, mInvClearcoat, rectCoords );
		#endif
	}
#endif
void RE_Direct_Physical( const in IncidentLight directLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in PhysicalMaterial material, inout ReflectedLight reflectedLight ) {
	float dotNL = saturate( dot( geometryNormal, directLight.direction ) );
	vec3 irradiance = dotNL * directLight.color;
	#ifdef USE_CLEARCOAT
		float dotNLcc = saturate( dot( geometryClearcoatNormal, directLight.direction ) );
		vec3 ccIrradiance = dotNLcc * directLight.color;
		clearcoatSpecularDirect += ccIrradiance * BRDF_GGX_Clearcoat( directLight.direction, geometryViewDir, geometryClearcoatNormal, material );
	#endif
	#ifdef USE_SHEEN
 
 		sheenSpecularDirect += irradiance * BRDF_Sheen( directLight.direction, geometryViewDir, geometryNormal, material.sheenColor, material.sheenRoughness );
 
 		float sheenAlbedoV = IBLSheenBRDF( geometryNormal, geometryViewDir, material.sheenRoughness );
 		float sheenAlbedoL = IBLSheenBRDF( geometryNormal, directLight.direction, material.sheenRoughness );
 
 		float sheenEnergyComp = 1.0 - max3( material.sheenColor ) * max( sheenAlbedoV, sheenAlbedoL );
 
 		irradiance *= sheenEnergyComp;
 
 	#endif
	vec3 specularBRDF = BRDF_GGX( directLight.direction, geometryViewDir, geometryNormal, material );
	#ifdef USE_RETROREFLECTION
		vec3 retroViewDir = reflect( - geometryViewDir, geometryNormal );
		vec3 retroSpecularBRDF = BRDF_GGX( directLight.direction, retroViewDir, geometryNormal, material );
		specularBRDF = mix( specularBRDF, retroSpecularBRDF, saturate( material.retroreflectivity ) );
	#endif
	reflectedLight.directSpecular += irradiance * specularBRDF * material.multiScatteringCompensation;
	vec3 halfDir = normalize( directLight.direction + geometryViewDir );
	float dotVH = saturate( dot( geometryViewDir, halfDir ) );
	vec3 F = F_Schlick( material.specularColor, material.specularF90, dotVH );
	#ifdef USE_RETROREFLECTION
		vec3 retroHalfDir = normalize( directLight.direction + retroViewDir );
		float dotRetroVH = saturate( dot( retroViewDir, retroHalfDir ) );
		vec3 retroF = F_Schlick( material.specularColor, material.specularF90, dotRetroVH );
		F = mix( F, retroF, saturate( material.retroreflectivity ) );
	#endif
	#ifdef USE_DIFFUSE_ROUGHNESS
		vec3 diffuseBRDF = BRDF_EON( directLight.direction, geometryViewDir, geometryNormal, material.diffuseColor, material.diffuseRoughness ) * ( 1.0 - material.metalness );
	#else
		vec3 diffuseBRDF = BRDF_Lambert( material.diffuseContribution );
	#endif
	reflectedLight.directDiffuse += irradiance * diffuseBRDF * ( 1.0 - F );
}
void RE_IndirectDiffuse_Physical( const in vec3 irradiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in PhysicalMaterial material, inout ReflectedLight reflectedLight ) {
	vec3 singleScattering = vec3( 0.0 );
	vec3 multiScattering = vec3( 0.0 );
	#ifdef USE_IRIDESCENCE
		computeMultiscatteringIridescence( material.dfg, material.specularColor, material.specularF90, material.iridescence, material.iridescenceF0Dielectric, singleScattering, multiScattering );
	#else
		computeMultiscattering( material.dfg, material.specularColor, material.specularF90, singleScattering, multiScattering );
	#endif
	#ifdef USE_DIFFUSE_ROUGHNESS
		float dotNV = saturate( dot( geometryNormal, geometryViewDir ) );
		vec3 diffuseAlbedo = EON_DirectionalAlbedo( material.diffuseColor, material.diffuseRoughness, dotNV ) * ( 1.0 - material.metalness );
		vec3 diffuse = irradiance * RECIPROCAL_PI * diffuseAlbedo * ( 1.0 - singleScattering - multiScattering );
	#else
		vec3 diffuse = irradiance * BRDF_Lambert( material.diffuseContribution ) * ( 1.0 - singleScattering - multiScattering );
	#endif
	#ifdef USE_SHEEN
		float sheenAlbedo = IBLSheenBRDF( geometryNormal, geometryViewDir, material.sheenRoughness );
		sheenSpecularIndirect += irradiance * material.sheenColor * sheenAlbedo * RECIPROCAL_PI;
		float sheenEnergyComp = 1.0 - max3( material.sheenColor ) * sheenAlbedo;
		diffuse *= sheenEnergyComp;
	#endif
	reflectedLight.indirectDiffuse += diffuse;
}
void RE_IndirectSpecular_Physical( const in vec3 radiance, const in vec3 irradiance, const in vec3 clearcoatRadiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in PhysicalMaterial material, inout ReflectedLight reflectedLight) {
	#ifdef USE_CLEARCOAT
		clearcoatSpecularIndirect += clearcoatRadiance * EnvironmentBRDF( geometryClearcoatNormal, geometryViewDir, material.clearcoatF0, material.clearcoatF90, material.clearcoatRoughness );
	#endif
	#ifdef USE_SHEEN
		sheenSpecularIndirect += irradiance * material.sheenColor * IBLSheenBRDF( geometryNormal, geometryViewDir, material.sheenRoughness ) * RECIPROCAL_PI;
 	#endif
	vec3 singleScatteringDielectric = vec3( 0.0 );
	vec3 multiScatteringDielectric = vec3( 0.0 );
	vec3 singleScatteringMetallic = vec3( 0.0 );
	vec3 multiScatteringMetallic = vec3( 0.0 );
	#ifdef USE_IRIDESCENCE
		computeMultiscatteringIridescence( material.dfg, material.specularColor, material.specularF90, material.iridescence, material.iridescenceF0Dielectric, singleScatteringDielectric, multiScatteringDielectric );
		computeMultiscatteringIridescence( material.dfg, material.diffuseColor, material.specularF90, material.iridescence, material.iridescenceF0Metallic, singleScatteringMetallic, multiScatteringMetallic );
	#else
		computeMultiscattering( material.dfg, material.specularColor, material.specularF90, singleScatteringDielectric, multiScatteringDielectric );
		computeMultiscattering( material.dfg, material.diffuseColor, material.specularF90, singleScatteringMetallic, multiScatteringMetallic );
	#endif
	vec3 singleScattering = mix( singleScatteringDielectric, singleScatteringMetallic, material.metalness );
	vec3 multiScattering = mix( multiScatteringDielectric, multiScatteringMetallic, material.metalness );
	vec3 totalScatteringDielectric = singleScatteringDielectric + multiScatteringDielectric;
	#ifdef USE_DIFFUSE_ROUGHNESS
		float dotNV = saturate( dot( geometryNormal, geometryViewDir ) );
		vec3 diffuse = EON_DirectionalAlbedo( material.diffuseColor, material.diffuseRoughness, dotNV ) * ( 1.0 - material.metalness ) * ( 1.0 - totalScatteringDielectric );
	#else
		vec3 diffuse = material.diffuseContribution * ( 1.0 - totalScatteringDielectric );
	#endif
	vec3 cosineWeightedIrradiance = irradiance * RECIPROCAL_PI;
	vec3 indirectSpecular = radiance * singleScattering;
	indirectSpecular += multiScattering * cosineWeightedIrradiance;
	vec3 indirectDiffuse = diffuse * cosineWeightedIrradiance;
	#ifdef USE_SHEEN
		float sheenAlbedo = IBLSheenBRDF( geometryNormal, geometryViewDir, material.sheenRoughness );
		float sheenEnergyComp = 1.0 - max3( material.sheenColor ) * sheenAlbedo;
		indirectSpecular *= sheenEnergyComp;
		indirectDiffuse *= sheenEnergyComp;
	#endif
	reflectedLight.indirectSpecular += indirectSpecular;
	reflectedLight.indirectDiffuse += indirectDiffuse;
}
#define RE_Direct				RE_Direct_Physical
#define RE_Direct_RectArea		RE_Direct_RectArea_Physical
#define RE_IndirectDiffuse		RE_IndirectDiffuse_Physical
#define RE_IndirectSpecular		RE_IndirectSpecular_Physical
float computeSpecularOcclusion( const in float dotNV, const in float ambientOcclusion, const in float roughness ) {
	return saturate( pow( dotNV + ambientOcclusion, exp2( - 16.0 * roughness - 1.0 ) ) - 1.0 + ambientOcclusion );
}`,Dy=`
vec3 geometryPosition = - vViewPosition;
vec3 geometryNormal = normal;
vec3 geometryViewDir = ( isOrthographic ) ? vec3( 0, 0, 1 ) : normalize( vViewPosition );
vec3 geometryClearcoatNormal = vec3( 0.0 );
#ifdef USE_CLEARCOAT
	geometryClearcoatNormal = clearcoatNormal;
#endif
#ifdef USE_IRIDESCENCE
	float dotNVi = saturate( dot( normal, geometryViewDir ) );
	if ( material.iridescenceThickness == 0.0 ) {
		material.iridescence = 0.0;
	} else {
		material.iridescence = saturate( material.iridescence );
	}
	if ( material.iridescence > 0.0 ) {
		vec3 iridescenceFresnelDielectric = evalIridescence( 1.0, material.iridescenceIOR, dotNVi, material.iridescenceThickness, material.specularColor );
		vec3 iridescenceFresnelMetallic = evalIridescence( 1.0, material.iridescenceIOR, dotNVi, material.iridescenceThickness, material.diffuseColor );
		material.iridescenceFresnel = mix( iridescenceFresnelDielectric, iridescenceFresnelMetallic, material.metalness );
		material.iridescenceF0Dielectric = Schlick_to_F0( iridescenceFresnelDielectric, 1.0, dotNVi );
		material.iridescenceF0Metallic = Schlick_to_F0( iridescenceFresnelMetallic, 1.0, dotNVi );
	}
#endif
#ifdef STANDARD
	float dotNVms = saturate( dot( geometryNormal, geometryViewDir ) );
	material.dfg = texture2D( dfgLUT, vec2( material.roughness, dotNVms ) ).rg;
	#if ( NUM_SUN_LIGHTS > 0 || NUM_DIR_LIGHTS > 0 || NUM_POINT_LIGHTS > 0 || NUM_SPOT_LIGHTS > 0 )
		float EssMs = material.dfg.x + material.dfg.y;
		material.multiScatteringCompensation = 1.0 + material.specularColorBlended * ( 1.0 / EssMs - 1.0 );
	#endif
#endif
IncidentLight directLight;
#if ( NUM_POINT_LIGHTS > 0 ) && defined( RE_Direct )
	PointLight pointLight;
	#if defined( USE_SHADOWMAP ) && NUM_POINT_LIGHT_SHADOWS > 0
	PointLightShadow pointLightShadow;
	#endif
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_POINT_LIGHTS; i ++ ) {
		pointLight = pointLights[ i ];
		getPointLightInfo( pointLight, geometryPosition, directLight );
		#if defined( USE_SHADOWMAP ) && ( UNROLLED_LOOP_INDEX < NUM_POINT_LIGHT_SHADOWS ) && ( defined( SHADOWMAP_TYPE_PCF ) || defined( SHADOWMAP_TYPE_BASIC ) )
		pointLightShadow = pointLightShadows[ i ];
		directLight.color *= ( directLight.visible && receiveShadow ) ? getPointShadow( pointShadowMap[ i ], pointLightShadow.shadowMapSize, pointLightShadow.shadowIntensity, pointLightShadow.shadowBias, pointLightShadow.shadowRadius, vPointShadowCoord[ i ], pointLightShadow.shadowCameraNear, pointLightShadow.shadowCameraFar ) : 1.0;
		#endif
		RE_Direct( directLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if ( NUM_SPOT_LIGHTS > 0 ) && defined( RE_Direct )
	SpotLight spotLight;
	vec4 spotColor;
	vec3 spotLightCoord;
	bool inSpotLightMap;
	#if defined( USE_SHADOWMAP ) && NUM_SPOT_LIGHT_SHADOWS > 0
	SpotLightShadow spotLightShadow;
	#endif
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SPOT_LIGHTS; i ++ ) {
		spotLight = spotLights[ i ];
		getSpotLightInfo( spotLight, geometryPosition, directLight );
		#if ( UNROLLED_LOOP_INDEX < NUM_SPOT_LIGHT_SHADOWS_WITH_MAPS )
		#define SPOT_LIGHT_MAP_INDEX UNROLLED_LOOP_INDEX
		#elif ( UNROLLED_LOOP_INDEX < NUM_SPOT_LIGHT_SHADOWS )
		#define SPOT_LIGHT_MAP_INDEX NUM_SPOT_LIGHT_MAPS
		#else
		#define SPOT_LIGHT_MAP_INDEX ( UNROLLED_LOOP_INDEX - NUM_SPOT_LIGHT_SHADOWS + NUM_SPOT_LIGHT_SHADOWS_WITH_MAPS )
		#endif
		#if ( SPOT_LIGHT_MAP_INDEX < NUM_SPOT_LIGHT_MAPS )
			spotLightCoord = vSpotLightCoord[ i ].xyz / vSpotLightCoord[ i ].w;
			inSpotLightMap = all( lessThan( abs( spotLightCoord * 2. - 1. ), vec3( 1.0 ) ) );
			spotColor = texture2D( spotLightMap[ SPOT_LIGHT_MAP_INDEX ], spotLightCoord.xy );
			directLight.color = inSpotLightMap ? directLight.color * spotColor.rgb : directLight.color;
		#endif
		#undef SPOT_LIGHT_MAP_INDEX
		#if defined( USE_SHADOWMAP ) && ( UNROLLED_LOOP_INDEX < NUM_SPOT_LIGHT_SHADOWS )
		spotLightShadow = spotLightShadows[ i ];
		directLight.color *= ( directLight.visible && receiveShadow ) ? getShadow( spotShadowMap[ i ], spotLightShadow.shadowMapSize, spotLightShadow.shadowIntensity, spotLightShadow.shadowBias, spotLightShadow.shadowRadius, vSpotLightCoord[ i ] ) : 1.0;
		#endif
		RE_Direct( directLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if ( NUM_SUN_LIGHTS > 0 ) && defined( RE_Direct )
	SunLight sunLight;
	#if defined( USE_SHADOWMAP ) && NUM_SUN_LIGHT_SHADOWS > 0
	SunLightShadow sunLightShadow;
	#endif
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SUN_LIGHTS; i ++ ) {
		sunLight = sunLights[ i ];
		getSunLightInfo( sunLight, directLight );
		#if defined( USE_SHADOWMAP ) && ( UNROLLED_LOOP_INDEX < NUM_SUN_LIGHT_SHADOWS )
		sunLightShadow = sunLightShadows[ i ];
		directLight.color *= ( directLight.visible && receiveShadow ) ? getSunShadow( sunShadowMap[ i ], sunLightShadow, UNROLLED_LOOP_INDEX ) : 1.0;
		#endif
		RE_Direct( directLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if ( NUM_DIR_LIGHTS > 0 ) && defined( RE_Direct )
	DirectionalLight directionalLight;
	#if defined( USE_SHADOWMAP ) && NUM_DIR_LIGHT_SHADOWS > 0
	DirectionalLightShadow directionalLightShadow;
	#endif
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_DIR_LIGHTS; i ++ ) {
		directionalLight = directionalLights[ i ];
		getDirectionalLightInfo( directionalLight, directLight );
		#if defined( USE_SHADOWMAP ) && ( UNROLLED_LOOP_INDEX < NUM_DIR_LIGHT_SHADOWS )
		directionalLightShadow = directionalLightShadows[ i ];
		directLight.color *= ( directLight.visible && receiveShadow ) ? getShadow( directionalShadowMap[ i ], directionalLightShadow.shadowMapSize, directionalLightShadow.shadowIntensity, directionalLightShadow.shadowBias, directionalLightShadow.shadowRadius, vDirectionalShadowCoord[ i ] ) : 1.0;
		#endif
		RE_Direct( directLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if ( NUM_RECT_AREA_LIGHTS > 0 ) && defined( RE_Direct_RectArea )
	RectAreaLight rectAreaLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_RECT_AREA_LIGHTS; i ++ ) {
		rectAreaLight = rectAreaLights[ i ];
		RE_Direct_RectArea( rectAreaLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if defined( RE_IndirectDiffuse )
	vec3 iblIrradiance = vec3( 0.0 );
	vec3 irradiance = getAmbientLightIrradiance( ambientLightColor );
	#if defined( USE_LIGHT_PROBES )
		irradiance += getLightProbeIrradiance( lightProbe, geometryNormal );
	#endif
	#if ( NUM_HEMI_LIGHTS > 0 )
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_HEMI_LIGHTS; i ++ ) {
			irradiance += getHemisphereLightIrradiance( hemisphereLights[ i ], geometryNormal );
		}
		#pragma unroll_loop_end
	#endif
	#if NUM_LIGHT_PROBE_GRIDS > 0
		vec3 probeWorldPos = ( ( vec4( geometryPosition, 1.0 ) - viewMatrix[ 3 ] ) * viewMatrix ).xyz;
		vec3 probeWorldNormal = transformNormalByInverseViewMatrix( geometryNormal, viewMatrix );
		int probeGrid = - 1;
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_LIGHT_PROBE_GRIDS; i ++ ) {
			if ( isInsideLightProbeGrid( probeWorldPos, probeWorldNormal, probesMin[ i ], probesMax[ i ], probesResolution[ i ] ) ) probeGrid = UNROLLED_LOOP_INDEX;
		}
		#pragma unroll_loop_end
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_LIGHT_PROBE_GRIDS; i ++ ) {
			if ( probeGrid == UNROLLED_LOOP_INDEX ) irradiance += getLightProbeGridIrradiance( probesSH[ i ], probesMin[ i ], probesMax[ i ], probesResolution[ i ], probeWorldPos, probeWorldNormal );
		}
		#pragma unroll_loop_end
	#endif
#endif
#if defined( RE_IndirectSpecular )
	vec3 radiance = vec3( 0.0 );
	vec3 clearcoatRadiance = vec3( 0.0 );
#endif`,Uy=`#if defined( RE_IndirectDiffuse )
	#ifdef USE_LIGHTMAP
		vec4 lightMapTexel = texture2D( lightMap, vLightMapUv );
		vec3 lightMapIrradiance = lightMapTexel.rgb * lightMapIntensity;
		irradiance += lightMapIrradiance;
	#endif
	#if defined( USE_ENVMAP ) && defined( ENVMAP_TYPE_PMREM )
		#if defined( STANDARD ) || defined( LAMBERT ) || defined( PHONG )
			iblIrradiance += getIBLIrradiance( geometryNormal );
		#endif
	#endif
#endif
#if defined( USE_ENVMAP ) && defined( RE_IndirectSpecular )
	#ifdef USE_ANISOTROPY
		vec3 iblRadiance = getIBLAnisotropyRadiance( geometryViewDir, geometryNormal, material.roughness, material.anisotropyB, material.anisotropy );
	#else
		vec3 iblRadiance = getIBLRadiance( geometryViewDir, geometryNormal, material.roughness );
	#endif
	#ifdef USE_RETROREFLECTION
		#ifdef USE_ANISOTROPY
			vec3 retroIBLRadiance = getIBLAnisotropyRetroRadiance( geometryViewDir, geometryNormal, material.roughness, material.anisotropyB, material.anisotropy );
		#else
			vec3 retroIBLRadiance = getIBLRetroRadiance( geometryViewDir, geometryNormal, material.roughness );
		#endif
		iblRadiance = mix( iblRadiance, retroIBLRadiance, saturate( material.retroreflectivity ) );
	#endif
	radiance += iblRadiance;
	#ifdef USE_CLEARCOAT
		clearcoatRadiance += getIBLRadiance( geometryViewDir, geometryClearcoatNormal, material.clearcoatRoughness );
	#endif
#endif`,Oy=`#if defined( RE_IndirectDiffuse )
	#if defined( LAMBERT ) || defined( PHONG )
		irradiance += iblIrradiance;
	#endif
	RE_IndirectDiffuse( irradiance, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
#endif
#if defined( RE_IndirectSpecular )
	RE_IndirectSpecular( radiance, iblIrradiance, clearcoatRadiance, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
#endif`,Fy=`#if NUM_LIGHT_PROBE_GRIDS > 0
uniform highp sampler3D probesSH[ NUM_LIGHT_PROBE_GRIDS ];
uniform vec3 probesMin[ NUM_LIGHT_PROBE_GRIDS ];
uniform vec3 probesMax[ NUM_LIGHT_PROBE_GRIDS ];
uniform vec3 probesResolution[ NUM_LIGHT_PROBE_GRIDS ];
bool isInsideLightProbeGrid( vec3 worldPos, vec3 worldNormal, vec3 probesMin, vec3 probesMax, vec3 probesResolution ) {
	vec3 spacing = ( probesMax - probesMin ) / probesResolution;
	vec3 samplePos = worldPos + worldNormal * spacing * 0.5;
	vec3 margin = spacing * 0.01;
	return all( greaterThanEqual( samplePos, probesMin - margin ) ) && all( lessThanEqual( samplePos, probesMax + margin ) );
}
vec3 getLightProbeGridIrradiance( highp sampler3D probesSH, vec3 probesMin, vec3 probesMax, vec3 probesResolution, vec3 worldPos, vec3 worldNormal ) {
	vec3 res = probesResolution;
	vec3 gridRange = probesMax - probesMin;
	vec3 probeSpacing = gridRange / res;
	vec3 samplePos = worldPos + worldNormal * probeSpacing * 0.5;
	vec3 uvw = clamp( ( samplePos - probesMin ) / gridRange, 0.5 / res, 1.0 - 0.5 / res );
	float nz          = res.z;
	float paddedSlices = nz + 2.0;
	float atlasDepth  = 7.0 * paddedSlices;
	float uvZBase     = uvw.z * nz + 1.0;
	vec4 s0 = texture( probesSH, vec3( uvw.xy, ( uvZBase                       ) / atlasDepth ) );
	vec4 s1 = texture( probesSH, vec3( uvw.xy, ( uvZBase +       paddedSlices   ) / atlasDepth ) );
	vec4 s2 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 2.0 * paddedSlices   ) / atlasDepth ) );
	vec4 s3 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 3.0 * paddedSlices   ) / atlasDepth ) );
	vec4 s4 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 4.0 * paddedSlices   ) / atlasDepth ) );
	vec4 s5 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 5.0 * paddedSlices   ) / atlasDepth ) );
	vec4 s6 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 6.0 * paddedSlices   ) / atlasDepth ) );
	vec3 c0 = s0.xyz;
	vec3 c1 = vec3( s0.w, s1.xy );
	vec3 c2 = vec3( s1.zw, s2.x );
	vec3 c3 = s2.yzw;
	vec3 c4 = s3.xyz;
	vec3 c5 = vec3( s3.w, s4.xy );
	vec3 c6 = vec3( s4.zw, s5.x );
	vec3 c7 = s5.yzw;
	vec3 c8 = s6.xyz;
	float x = worldNormal.x, y = worldNormal.y, z = worldNormal.z;
	vec3 result = c0 * 0.886227;
	result += c1 * 2.0 * 0.511664 * y;
	result += c2 * 2.0 * 0.511664 * z;
	result += c3 * 2.0 * 0.511664 * x;
	result += c4 * 2.0 * 0.429043 * x * y;
	result += c5 * 2.0 * 0.429043 * y * z;
	result += c6 * ( 0.743125 * z * z - 0.247708 );
	result += c7 * 2.0 * 0.429043 * x * z;
	result += c8 * 0.429043 * ( x * x - y * y );
	return max( result, vec3( 0.0 ) );
}
#endif`,By=`#if defined( USE_LOGARITHMIC_DEPTH_BUFFER )
	gl_FragDepth = vIsPerspective == 0.0 ? gl_FragCoord.z : log2( vFragDepth ) * logDepthBufFC * 0.5;
#endif`,ky=`#if defined( USE_LOGARITHMIC_DEPTH_BUFFER )
	uniform float logDepthBufFC;
	varying float vFragDepth;
	varying float vIsPerspective;
#endif`,zy=`#ifdef USE_LOGARITHMIC_DEPTH_BUFFER
	varying float vFragDepth;
	varying float vIsPerspective;
#endif`,Gy=`#ifdef USE_LOGARITHMIC_DEPTH_BUFFER
	vFragDepth = 1.0 + gl_Position.w;
	vIsPerspective = float( isPerspectiveMatrix( projectionMatrix ) );
#endif`,Vy=`#ifdef USE_MAP
	vec4 sampledDiffuseColor = texture2D( map, vMapUv );
	#ifdef DECODE_VIDEO_TEXTURE
		sampledDiffuseColor = sRGBTransferEOTF( sampledDiffuseColor );
	#endif
	diffuseColor *= sampledDiffuseColor;
#endif`,Hy=`#ifdef USE_MAP
	uniform sampler2D map;
#endif`,Wy=`#if defined( USE_MAP ) || defined( USE_ALPHAMAP )
	#if defined( USE_POINTS_UV )
		vec2 uv = vUv;
	#else
		vec2 uv = ( uvTransform * vec3( gl_PointCoord.x, 1.0 - gl_PointCoord.y, 1 ) ).xy;
	#endif
#endif
#ifdef USE_MAP
	diffuseColor *= texture2D( map, uv );
#endif
#ifdef USE_ALPHAMAP
	diffuseColor.a *= texture2D( alphaMap, uv ).g;
#endif`,Xy=`#if defined( USE_POINTS_UV )
	varying vec2 vUv;
#else
	#if defined( USE_MAP ) || defined( USE_ALPHAMAP )
		uniform mat3 uvTransform;
	#endif
#endif
#ifdef USE_MAP
	uniform sampler2D map;
#endif
#ifdef USE_ALPHAMAP
	uniform sampler2D alphaMap;
#endif`,$y=`float metalnessFactor = metalness;
#ifdef USE_METALNESSMAP
	vec4 texelMetalness = texture2D( metalnessMap, vMetalnessMapUv );
	metalnessFactor *= texelMetalness.b;
#endif`,qy=`#ifdef USE_METALNESSMAP
	uniform sampler2D metalnessMap;
#endif`,Yy=`#ifdef USE_INSTANCING_MORPH
	float morphTargetInfluences[ MORPHTARGETS_COUNT ];
	float morphTargetBaseInfluence = texelFetch( morphTexture, ivec2( 0, gl_InstanceID ), 0 ).r;
	for ( int i = 0; i < MORPHTARGETS_COUNT; i ++ ) {
		morphTargetInfluences[i] =  texelFetch( morphTexture, ivec2( i + 1, gl_InstanceID ), 0 ).r;
	}
#endif`,Zy=`#if defined( USE_MORPHCOLORS )
	#if defined( USE_COLOR_ALPHA )
		vColor *= morphTargetBaseInfluence;
	#elif defined( USE_COLOR )
		vColor.rgb *= morphTargetBaseInfluence;
	#endif
	for ( int i = 0; i < MORPHTARGETS_COUNT; i ++ ) {
		#if defined( USE_COLOR_ALPHA )
			if ( morphTargetInfluences[ i ] != 0.0 ) vColor += getMorph( gl_VertexID, i, 2 ) * morphTargetInfluences[ i ];
		#elif defined( USE_COLOR )
			if ( morphTargetInfluences[ i ] != 0.0 ) vColor.rgb += getMorph( gl_VertexID, i, 2 ).rgb * morphTargetInfluences[ i ];
		#endif
	}
#endif`,Jy=`#ifdef USE_MORPHNORMALS
	objectNormal *= morphTargetBaseInfluence;
	for ( int i = 0; i < MORPHTARGETS_COUNT; i ++ ) {
		if ( morphTargetInfluences[ i ] != 0.0 ) objectNormal += getMorph( gl_VertexID, i, 1 ).xyz * morphTargetInfluences[ i ];
	}
#endif`,Ky=`#ifdef USE_MORPHTARGETS
	#ifndef USE_INSTANCING_MORPH
		uniform float morphTargetBaseInfluence;
		uniform float morphTargetInfluences[ MORPHTARGETS_COUNT ];
	#endif
	uniform sampler2DArray morphTargetsTexture;
	uniform ivec2 morphTargetsTextureSize;
	vec4 getMorph( const in int vertexIndex, const in int morphTargetIndex, const in int offset ) {
		int texelIndex = vertexIndex * MORPHTARGETS_TEXTURE_STRIDE + offset;
		int y = texelIndex / morphTargetsTextureSize.x;
		int x = texelIndex - y * morphTargetsTextureSize.x;
		ivec3 morphUV = ivec3( x, y, morphTargetIndex );
		return texelFetch( morphTargetsTexture, morphUV, 0 );
	}
#endif`,jy=`#ifdef USE_MORPHTARGETS
	transformed *= morphTargetBaseInfluence;
	for ( int i = 0; i < MORPHTARGETS_COUNT; i ++ ) {
		if ( morphTargetInfluences[ i ] != 0.0 ) transformed += getMorph( gl_VertexID, i, 0 ).xyz * morphTargetInfluences[ i ];
	}
#endif`,Qy=`float faceDirection = gl_FrontFacing ? 1.0 : - 1.0;
#ifdef FLAT_SHADED
	vec3 fdx = dFdx( vViewPosition );
	vec3 fdy = dFdy( vViewPosition );
	vec3 normal = normalize( cross( fdx, fdy ) );
#else
	vec3 normal = normalize( vNormal );
	#ifdef DOUBLE_SIDED
		normal *= faceDirection;
	#endif
#endif
#if defined( USE_NORMALMAP_TANGENTSPACE ) || defined( USE_CLEARCOAT_NORMALMAP ) || defined( USE_ANISOTROPY )
	#ifdef USE_TANGENT
		mat3 tbn = mat3( normalize( vTangent ), normalize( vBitangent ), normal );
	#else
		mat3 tbn = getTangentFrame( - vViewPosition, normal,
		#if defined( USE_NORMALMAP )
			vNormalMapUv
		#elif defined( USE_CLEARCOAT_NORMALMAP )
			vClearcoatNormalMapUv
		#else
			vUv
		#endif
		);
	#endif
	#ifdef DOUBLE_SIDED
		tbn[0] *= faceDirection;
		tbn[1] *= faceDirection;
	#endif
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	#ifdef USE_TANGENT
		mat3 tbn2 = mat3( normalize( vTangent ), normalize( vBitangent ), normal );
	#else
		mat3 tbn2 = getTangentFrame( - vViewPosition, normal, vClearcoatNormalMapUv );
	#endif
	#ifdef DOUBLE_SIDED
		tbn2[0] *= faceDirection;
		tbn2[1] *= faceDirection;
	#endif
#endif
vec3 nonPerturbedNormal = normal;`,tv=`#ifdef USE_NORMALMAP_OBJECTSPACE
	normal = texture2D( normalMap, vNormalMapUv ).xyz * 2.0 - 1.0;
	#ifdef FLIP_SIDED
		normal = - normal;
	#endif
	#ifdef DOUBLE_SIDED
		normal = normal * faceDirection;
	#endif
	normal = normalize( normalMatrix * normal );
#elif defined( USE_NORMALMAP_TANGENTSPACE )
	vec3 mapN = texture2D( normalMap, vNormalMapUv ).xyz * 2.0 - 1.0;
	#if defined( USE_PACKED_NORMALMAP )
		mapN = vec3( mapN.xy, sqrt( saturate( 1.0 - dot( mapN.xy, mapN.xy ) ) ) );
	#endif
	mapN.xy *= normalScale;
	normal = normalize( tbn * mapN );
#elif defined( USE_BUMPMAP )
	normal = perturbNormalArb( - vViewPosition, normal, dHdxy_fwd(), faceDirection );
#endif`,ev=`#ifndef FLAT_SHADED
	varying vec3 vNormal;
	#ifdef USE_TANGENT
		varying vec3 vTangent;
		varying vec3 vBitangent;
	#endif
#endif`,nv=`#ifndef FLAT_SHADED
	varying vec3 vNormal;
	#ifdef USE_TANGENT
		varying vec3 vTangent;
		varying vec3 vBitangent;
	#endif
#endif`,iv=`#ifndef FLAT_SHADED
	vNormal = normalize( transformedNormal );
	#ifdef USE_TANGENT
		vTangent = normalize( transformedTangent );
		vBitangent = normalize( cross( vNormal, vTangent ) * tangent.w );
		#ifdef FLIP_SIDED
			vBitangent = - vBitangent;
		#endif
	#endif
#endif`,sv=`#ifdef USE_NORMALMAP
	uniform sampler2D normalMap;
	uniform vec2 normalScale;
#endif
#ifdef USE_NORMALMAP_OBJECTSPACE
	uniform mat3 normalMatrix;
#endif
#if ! defined ( USE_TANGENT ) && ( defined ( USE_NORMALMAP_TANGENTSPACE ) || defined ( USE_CLEARCOAT_NORMALMAP ) || defined( USE_ANISOTROPY ) )
	mat3 getTangentFrame( vec3 eye_pos, vec3 surf_norm, vec2 uv ) {
		vec3 q0 = dFdx( eye_pos.xyz );
		vec3 q1 = dFdy( eye_pos.xyz );
		vec2 st0 = dFdx( uv.st );
		vec2 st1 = dFdy( uv.st );
		vec3 N = surf_norm;
		vec3 q1perp = cross( q1, N );
		vec3 q0perp = cross( N, q0 );
		vec3 T = q1perp * st0.x + q0perp * st1.x;
		vec3 B = q1perp * st0.y + q0perp * st1.y;
		float det = max( dot( T, T ), dot( B, B ) );
		float scale = ( det == 0.0 ) ? 0.0 : inversesqrt( det );
		return mat3( T * scale, B * scale, N );
	}
#endif`,rv=`#ifdef USE_CLEARCOAT
	vec3 clearcoatNormal = nonPerturbedNormal;
#endif`,ov=`#ifdef USE_CLEARCOAT_NORMALMAP
	vec3 clearcoatMapN = texture2D( clearcoatNormalMap, vClearcoatNormalMapUv ).xyz * 2.0 - 1.0;
	clearcoatMapN.xy *= clearcoatNormalScale;
	clearcoatNormal = normalize( tbn2 * clearcoatMapN );
#endif`,av=`#ifdef USE_CLEARCOATMAP
	uniform sampler2D clearcoatMap;
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	uniform sampler2D clearcoatNormalMap;
	uniform vec2 clearcoatNormalScale;
#endif
#ifdef USE_CLEARCOAT_ROUGHNESSMAP
	uniform sampler2D clearcoatRoughnessMap;
#endif`,lv=`#ifdef USE_IRIDESCENCEMAP
	uniform sampler2D iridescenceMap;
#endif
#ifdef USE_IRIDESCENCE_THICKNESSMAP
	uniform sampler2D iridescenceThicknessMap;
#endif`,cv=`#ifdef OPAQUE
diffuseColor.a = 1.0;
#endif
#ifdef USE_TRANSMISSION
diffuseColor.a *= material.transmissionAlpha;
#endif
gl_FragColor = vec4( outgoingLight, diffuseColor.a );`,hv=`vec3 packNormalToRGB( const in vec3 normal ) {
	return normalize( normal ) * 0.5 + 0.5;
}
vec3 unpackRGBToNormal( const in vec3 rgb ) {
	return 2.0 * rgb.xyz - 1.0;
}
const float PackUpscale = 256. / 255.;const float UnpackDownscale = 255. / 256.;const float ShiftRight8 = 1. / 256.;
const float Inv255 = 1. / 255.;
const vec4 PackFactors = vec4( 1.0, 256.0, 256.0 * 256.0, 256.0 * 256.0 * 256.0 );
const vec2 UnpackFactors2 = vec2( UnpackDownscale, 1.0 / PackFactors.g );
const vec3 UnpackFactors3 = vec3( UnpackDownscale / PackFactors.rg, 1.0 / PackFactors.b );
const vec4 UnpackFactors4 = vec4( UnpackDownscale / PackFactors.rgb, 1.0 / PackFactors.a );
vec4 packDepthToRGBA( const in float v ) {
	if( v <= 0.0 )
		return vec4( 0., 0., 0., 0. );
	if( v >= 1.0 )
		return vec4( 1., 1., 1., 1. );
	float vuf;
	float af = modf( v * PackFactors.a, vuf );
	float bf = modf( vuf * ShiftRight8, vuf );
	float gf = modf( vuf * ShiftRight8, vuf );
	return vec4( vuf * Inv255, gf * PackUpscale, bf * PackUpscale, af );
}
vec3 packDepthToRGB( const in float v ) {
	if( v <= 0.0 )
		return vec3( 0., 0., 0. );
	if( v >= 1.0 )
		return vec3( 1., 1., 1. );
	float vuf;
	float bf = modf( v * PackFactors.b, vuf );
	float gf = modf( vuf * ShiftRight8, vuf );
	return vec3( vuf * Inv255, gf * PackUpscale, bf );
}
vec2 packDepthToRG( const in float v ) {
	if( v <= 0.0 )
		return vec2( 0., 0. );
	if( v >= 1.0 )
		return vec2( 1., 1. );
	float vuf;
	float gf = modf( v * 256., vuf );
	return vec2( vuf * Inv255, gf );
}
float unpackRGBAToDepth( const in vec4 v ) {
	return dot( v, UnpackFactors4 );
}
float unpackRGBToDepth( const in vec3 v ) {
	return dot( v, UnpackFactors3 );
}
float unpackRGToDepth( const in vec2 v ) {
	return v.r * UnpackFactors2.r + v.g * UnpackFactors2.g;
}
vec4 pack2HalfToRGBA( const in vec2 v ) {
	vec4 r = vec4( v.x, fract( v.x * 255.0 ), v.y, fract( v.y * 255.0 ) );
	return vec4( r.x - r.y / 255.0, r.y, r.z - r.w / 255.0, r.w );
}
vec2 unpackRGBATo2Half( const in vec4 v ) {
	return vec2( v.x + ( v.y / 255.0 ), v.z + ( v.w / 255.0 ) );
}
float viewZToOrthographicDepth( const in float viewZ, const in float near, const in float far ) {
	return ( viewZ + near ) / ( near - far );
}
float orthographicDepthToViewZ( const in float depth, const in float near, const in float far ) {
	#ifdef USE_REVERSED_DEPTH_BUFFER
	
		return depth * ( far - near ) - far;
	#else
		return depth * ( near - far ) - near;
	#endif
}
float viewZToPerspectiveDepth( const in float viewZ, const in float near, const in float far ) {
	return ( ( near + viewZ ) * far ) / ( ( far - near ) * viewZ );
}
float perspectiveDepthToViewZ( const in float depth, const in float near, const in float far ) {
	
	#ifdef USE_REVERSED_DEPTH_BUFFER
		return ( near * far ) / ( ( near - far ) * depth - near );
	#else
		return ( near * far ) / ( ( far - near ) * depth - far );
	#endif
}`,uv=`#ifdef PREMULTIPLIED_ALPHA
	gl_FragColor.rgb *= gl_FragColor.a;
#endif`,dv=`vec4 mvPosition = vec4( transformed, 1.0 );
#ifdef USE_BATCHING
	mvPosition = batchingMatrix * mvPosition;
#endif
#ifdef USE_INSTANCING
	mvPosition = instanceMatrix * mvPosition;
#endif
mvPosition = modelViewMatrix * mvPosition;
gl_Position = projectionMatrix * mvPosition;`,fv=`#ifdef DITHERING
	gl_FragColor.rgb = dithering( gl_FragColor.rgb );
#endif`,pv=`#ifdef DITHERING
	vec3 dithering( vec3 color ) {
		float grid_position = rand( gl_FragCoord.xy );
		vec3 dither_shift_RGB = vec3( 0.25 / 255.0, -0.25 / 255.0, 0.25 / 255.0 );
		dither_shift_RGB = mix( 2.0 * dither_shift_RGB, -2.0 * dither_shift_RGB, grid_position );
		return color + dither_shift_RGB;
	}
#endif`,mv=`float roughnessFactor = roughness;
#ifdef USE_ROUGHNESSMAP
	vec4 texelRoughness = texture2D( roughnessMap, vRoughnessMapUv );
	roughnessFactor *= texelRoughness.g;
#endif`,gv=`#ifdef USE_ROUGHNESSMAP
	uniform sampler2D roughnessMap;
#endif`,_v=`#if NUM_SPOT_LIGHT_COORDS > 0
	varying vec4 vSpotLightCoord[ NUM_SPOT_LIGHT_COORDS ];
#endif
#if NUM_SPOT_LIGHT_MAPS > 0
	uniform sampler2D spotLightMap[ NUM_SPOT_LIGHT_MAPS ];
#endif
#ifdef USE_SHADOWMAP
	#if NUM_SUN_LIGHT_SHADOWS > 0
		#define SUN_LIGHT_CASCADES 2
		#if defined( SHADOWMAP_TYPE_PCF )
			uniform sampler2DShadow sunShadowMap[ NUM_SUN_LIGHT_SHADOWS ];
		#else
			uniform sampler2D sunShadowMap[ NUM_SUN_LIGHT_SHADOWS ];
		#endif
		uniform mat4 sunShadowMatrix[ NUM_SUN_LIGHT_SHADOWS * SUN_LIGHT_CASCADES ];
		uniform vec4 sunShadowCascade[ NUM_SUN_LIGHT_SHADOWS * SUN_LIGHT_CASCADES ];
		varying vec4 vSunShadowWorldPosition;
		varying vec3 vSunShadowWorldNormal;
		struct SunLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform SunLightShadow sunLightShadows[ NUM_SUN_LIGHT_SHADOWS ];
	#endif
	#if NUM_DIR_LIGHT_SHADOWS > 0
		#if defined( SHADOWMAP_TYPE_PCF )
			uniform sampler2DShadow directionalShadowMap[ NUM_DIR_LIGHT_SHADOWS ];
		#else
			uniform sampler2D directionalShadowMap[ NUM_DIR_LIGHT_SHADOWS ];
		#endif
		varying vec4 vDirectionalShadowCoord[ NUM_DIR_LIGHT_SHADOWS ];
		struct DirectionalLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform DirectionalLightShadow directionalLightShadows[ NUM_DIR_LIGHT_SHADOWS ];
	#endif
	#if NUM_SPOT_LIGHT_SHADOWS > 0
		#if defined( SHADOWMAP_TYPE_PCF )
			uniform sampler2DShadow spotShadowMap[ NUM_SPOT_LIGHT_SHADOWS ];
		#else
			uniform sampler2D spotShadowMap[ NUM_SPOT_LIGHT_SHADOWS ];
		#endif
		struct SpotLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform SpotLightShadow spotLightShadows[ NUM_SPOT_LIGHT_SHADOWS ];
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0
		#if defined( SHADOWMAP_TYPE_PCF )
			uniform samplerCubeShadow pointShadowMap[ NUM_POINT_LIGHT_SHADOWS ];
		#elif defined( SHADOWMAP_TYPE_BASIC )
			uniform samplerCube pointShadowMap[ NUM_POINT_LIGHT_SHADOWS ];
		#endif
		varying vec4 vPointShadowCoord[ NUM_POINT_LIGHT_SHADOWS ];
		struct PointLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
			float shadowCameraNear;
			float shadowCameraFar;
		};
		uniform PointLightShadow pointLightShadows[ NUM_POINT_LIGHT_SHADOWS ];
	#endif
	#if defined( SHADOWMAP_TYPE_PCF )
		float interleavedGradientNoise( vec2 position ) {
			return fract( 52.9829189 * fract( dot( position, vec2( 0.06711056, 0.00583715 ) ) ) );
		}
		vec2 vogelDiskSample( int sampleIndex, int samplesCount, float phi ) {
			const float goldenAngle = 2.399963229728653;
			float r = sqrt( ( float( sampleIndex ) + 0.5 ) / float( samplesCount ) );
			float theta = float( sampleIndex ) * goldenAngle + phi;
			return vec2( cos( theta ), sin( theta ) ) * r;
		}
	#endif
	#if defined( SHADOWMAP_TYPE_PCF )
		float getShadow( sampler2DShadow shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord ) {
			float shadow = 1.0;
			shadowCoord.xyz /= shadowCoord.w;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				shadowCoord.z -= shadowBias;
			#else
				shadowCoord.z += shadowBias;
			#endif
			bool inFrustum = shadowCoord.x >= 0.0 && shadowCoord.x <= 1.0 && shadowCoord.y >= 0.0 && shadowCoord.y <= 1.0;
			bool frustumTest = inFrustum && shadowCoord.z <= 1.0;
			if ( frustumTest ) {
				vec2 texelSize = vec2( 1.0 ) / shadowMapSize;
				vec2 radius = shadowRadius * texelSize;
				float phi = interleavedGradientNoise( gl_FragCoord.xy ) * PI2;
				shadow = (
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 0, 5, phi ) * radius, shadowCoord.z ) ) +
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 1, 5, phi ) * radius, shadowCoord.z ) ) +
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 2, 5, phi ) * radius, shadowCoord.z ) ) +
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 3, 5, phi ) * radius, shadowCoord.z ) ) +
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 4, 5, phi ) * radius, shadowCoord.z ) )
				) * 0.2;
			}
			return mix( 1.0, shadow, shadowIntensity );
		}
	#elif defined( SHADOWMAP_TYPE_VSM )
		float getShadow( sampler2D shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord ) {
			float shadow = 1.0;
			shadowCoord.xyz /= shadowCoord.w;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				shadowCoord.z -= shadowBias;
			#else
				shadowCoord.z += shadowBias;
			#endif
			bool inFrustum = shadowCoord.x >= 0.0 && shadowCoord.x <= 1.0 && shadowCoord.y >= 0.0 && shadowCoord.y <= 1.0;
			bool frustumTest = inFrustum && shadowCoord.z <= 1.0;
			if ( frustumTest ) {
				vec2 distribution = texture2D( shadowMap, shadowCoord.xy ).rg;
				float mean = distribution.x;
				float variance = distribution.y * distribution.y;
				#ifdef USE_REVERSED_DEPTH_BUFFER
					float hard_shadow = step( mean, shadowCoord.z );
				#else
					float hard_shadow = step( shadowCoord.z, mean );
				#endif
				
				if ( hard_shadow == 1.0 ) {
					shadow = 1.0;
				} else {
					variance = max( variance, 0.0000001 );
					float d = shadowCoord.z - mean;
					float p_max = variance / ( variance + d * d );
					p_max = clamp( ( p_max - 0.3 ) / 0.65, 0.0, 1.0 );
					shadow = max( hard_shadow, p_max );
				}
			}
			return mix( 1.0, shadow, shadowIntensity );
		}
	#else
		float getShadow( sampler2D shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord ) {
			float shadow = 1.0;
			shadowCoord.xyz /= shadowCoord.w;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				shadowCoord.z -= shadowBias;
			#else
				shadowCoord.z += shadowBias;
			#endif
			bool inFrustum = shadowCoord.x >= 0.0 && shadowCoord.x <= 1.0 && shadowCoord.y >= 0.0 && shadowCoord.y <= 1.0;
			bool frustumTest = inFrustum && shadowCoord.z <= 1.0;
			if ( frustumTest ) {
				float depth = texture2D( shadowMap, shadowCoord.xy ).r;
				#ifdef USE_REVERSED_DEPTH_BUFFER
					shadow = step( depth, shadowCoord.z );
				#else
					shadow = step( shadowCoord.z, depth );
				#endif
			}
			return mix( 1.0, shadow, shadowIntensity );
		}
	#endif
	#if NUM_SUN_LIGHT_SHADOWS > 0
		float getSunShadow(
			#if defined( SHADOWMAP_TYPE_PCF )
				sampler2DShadow shadowMap,
			#else
				sampler2D shadowMap,
			#endif
			SunLightShadow sunLightShadow,
			int shadowIndex
		) {
			vec4 shadowWorldPosition = vec4( vSunShadowWorldPosition.xyz + vSunShadowWorldNormal * sunLightShadow.shadowNormalBias, 1.0 );
			float viewDepth = vSunShadowWorldPosition.w;
			int cascadeOffset = shadowIndex * SUN_LIGHT_CASCADES;
			float shadow = 1.0;
			for ( int i = SUN_LIGHT_CASCADES - 1; i >= 0; i -- ) {
				vec4 cascade = sunShadowCascade[ cascadeOffset + i ];
				if ( viewDepth >= cascade.x && viewDepth < cascade.y ) {
					float cascadeShadow = getShadow(
						shadowMap,
						sunLightShadow.shadowMapSize,
						sunLightShadow.shadowIntensity,
						sunLightShadow.shadowBias,
						sunLightShadow.shadowRadius,
						sunShadowMatrix[ cascadeOffset + i ] * shadowWorldPosition
					);
					shadow = mix( cascadeShadow, shadow, smoothstep( cascade.z, cascade.y, viewDepth ) );
				}
			}
			return shadow;
		}
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0
	#if defined( SHADOWMAP_TYPE_PCF )
	float getPointShadow( samplerCubeShadow shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord, float shadowCameraNear, float shadowCameraFar ) {
		float shadow = 1.0;
		vec3 lightToPosition = shadowCoord.xyz;
		vec3 bd3D = normalize( lightToPosition );
		vec3 absVec = abs( lightToPosition );
		float viewSpaceZ = max( max( absVec.x, absVec.y ), absVec.z );
		if ( viewSpaceZ - shadowCameraFar <= 0.0 && viewSpaceZ - shadowCameraNear >= 0.0 ) {
			float lightDistance = length( lightToPosition );
			float depthRange = shadowCameraFar - shadowCameraNear;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				float depthA = - shadowCameraNear / depthRange - shadowBias;
				float depthB = shadowCameraNear * shadowCameraFar / ( depthRange * lightDistance );
			#else
				float depthA = shadowCameraFar / depthRange + shadowBias;
				float depthB = - shadowCameraNear * shadowCameraFar / ( depthRange * lightDistance );
			#endif
			float texelSize = shadowRadius / shadowMapSize.x;
			vec3 absDir = abs( bd3D );
			vec3 tangent = absDir.x > absDir.z ? vec3( 0.0, 1.0, 0.0 ) : vec3( 1.0, 0.0, 0.0 );
			tangent = normalize( cross( bd3D, tangent ) );
			vec3 bitangent = cross( bd3D, tangent );
			float phi = interleavedGradientNoise( gl_FragCoord.xy ) * PI2;
			shadow = 0.0;
			for ( int i = 0; i < 5; i ++ ) {
				vec2 offset = vogelDiskSample( i, 5, phi );
				vec3 direction = bd3D + ( tangent * offset.x + bitangent * offset.y ) * texelSize;
				vec3 absDirection = abs( direction );
				float dp = depthA + depthB / max( max( absDirection.x, absDirection.y ), absDirection.z );
				shadow += texture( shadowMap, vec4( direction, dp ) );
			}
			shadow *= 0.2;
		}
		return mix( 1.0, shadow, shadowIntensity );
	}
	#elif defined( SHADOWMAP_TYPE_BASIC )
	float getPointShadow( samplerCube shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord, float shadowCameraNear, float shadowCameraFar ) {
		float shadow = 1.0;
		vec3 lightToPosition = shadowCoord.xyz;
		vec3 absVec = abs( lightToPosition );
		float viewSpaceZ = max( max( absVec.x, absVec.y ), absVec.z );
		if ( viewSpaceZ - shadowCameraFar <= 0.0 && viewSpaceZ - shadowCameraNear >= 0.0 ) {
			float dp = ( shadowCameraFar * ( viewSpaceZ - shadowCameraNear ) ) / ( viewSpaceZ * ( shadowCameraFar - shadowCameraNear ) );
			dp += shadowBias;
			vec3 bd3D = normalize( lightToPosition );
			float depth = textureCube( shadowMap, bd3D ).r;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				depth = 1.0 - depth;
			#endif
			shadow = step( dp, depth );
		}
		return mix( 1.0, shadow, shadowIntensity );
	}
	#endif
	#endif
#endif`,xv=`#if NUM_SPOT_LIGHT_COORDS > 0
	uniform mat4 spotLightMatrix[ NUM_SPOT_LIGHT_COORDS ];
	varying vec4 vSpotLightCoord[ NUM_SPOT_LIGHT_COORDS ];
#endif
#ifdef USE_SHADOWMAP
	#if NUM_SUN_LIGHT_SHADOWS > 0
		varying vec4 vSunShadowWorldPosition;
		varying vec3 vSunShadowWorldNormal;
	#endif
	#if NUM_DIR_LIGHT_SHADOWS > 0
		uniform mat4 directionalShadowMatrix[ NUM_DIR_LIGHT_SHADOWS ];
		varying vec4 vDirectionalShadowCoord[ NUM_DIR_LIGHT_SHADOWS ];
		struct DirectionalLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform DirectionalLightShadow directionalLightShadows[ NUM_DIR_LIGHT_SHADOWS ];
	#endif
	#if NUM_SPOT_LIGHT_SHADOWS > 0
		struct SpotLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform SpotLightShadow spotLightShadows[ NUM_SPOT_LIGHT_SHADOWS ];
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0
		uniform mat4 pointShadowMatrix[ NUM_POINT_LIGHT_SHADOWS ];
		varying vec4 vPointShadowCoord[ NUM_POINT_LIGHT_SHADOWS ];
		struct PointLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
			float shadowCameraNear;
			float shadowCameraFar;
		};
		uniform PointLightShadow pointLightShadows[ NUM_POINT_LIGHT_SHADOWS ];
	#endif
#endif`,yv=`#if ( defined( USE_SHADOWMAP ) && ( NUM_DIR_LIGHT_SHADOWS > 0 || NUM_SUN_LIGHT_SHADOWS > 0 || NUM_POINT_LIGHT_SHADOWS > 0 ) ) || ( NUM_SPOT_LIGHT_COORDS > 0 )
	#ifdef HAS_NORMAL
		vec3 shadowWorldNormal = transformNormalByInverseViewMatrix( transformedNormal, viewMatrix );
	#else
		vec3 shadowWorldNormal = vec3( 0.0 );
	#endif
	vec4 shadowWorldPosition;
#endif
#if defined( USE_SHADOWMAP )
	#if NUM_SUN_LIGHT_SHADOWS > 0
		vSunShadowWorldPosition = vec4( worldPosition.xyz, - mvPosition.z );
		vSunShadowWorldNormal = shadowWorldNormal;
	#endif
	#if NUM_DIR_LIGHT_SHADOWS > 0
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_DIR_LIGHT_SHADOWS; i ++ ) {
			shadowWorldPosition = worldPosition + vec4( shadowWorldNormal * directionalLightShadows[ i ].shadowNormalBias, 0 );
			vDirectionalShadowCoord[ i ] = directionalShadowMatrix[ i ] * shadowWorldPosition;
		}
		#pragma unroll_loop_end
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_POINT_LIGHT_SHADOWS; i ++ ) {
			shadowWorldPosition = worldPosition + vec4( shadowWorldNormal * pointLightShadows[ i ].shadowNormalBias, 0 );
			vPointShadowCoord[ i ] = pointShadowMatrix[ i ] * shadowWorldPosition;
		}
		#pragma unroll_loop_end
	#endif
#endif
#if NUM_SPOT_LIGHT_COORDS > 0
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SPOT_LIGHT_COORDS; i ++ ) {
		shadowWorldPosition = worldPosition;
		#if ( defined( USE_SHADOWMAP ) && UNROLLED_LOOP_INDEX < NUM_SPOT_LIGHT_SHADOWS )
			shadowWorldPosition.xyz += shadowWorldNormal * spotLightShadows[ i ].shadowNormalBias;
		#endif
		vSpotLightCoord[ i ] = spotLightMatrix[ i ] * shadowWorldPosition;
	}
	#pragma unroll_loop_end
#endif`,vv=`float getShadowMask() {
	float shadow = 1.0;
	#ifdef USE_SHADOWMAP
	#if NUM_SUN_LIGHT_SHADOWS > 0
	SunLightShadow sunLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SUN_LIGHT_SHADOWS; i ++ ) {
		sunLight = sunLightShadows[ i ];
		shadow *= receiveShadow ? getSunShadow( sunShadowMap[ i ], sunLight, UNROLLED_LOOP_INDEX ) : 1.0;
	}
	#pragma unroll_loop_end
	#endif
	#if NUM_DIR_LIGHT_SHADOWS > 0
	DirectionalLightShadow directionalLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_DIR_LIGHT_SHADOWS; i ++ ) {
		directionalLight = directionalLightShadows[ i ];
		shadow *= receiveShadow ? getShadow( directionalShadowMap[ i ], directionalLight.shadowMapSize, directionalLight.shadowIntensity, directionalLight.shadowBias, directionalLight.shadowRadius, vDirectionalShadowCoord[ i ] ) : 1.0;
	}
	#pragma unroll_loop_end
	#endif
	#if NUM_SPOT_LIGHT_SHADOWS > 0
	SpotLightShadow spotLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SPOT_LIGHT_SHADOWS; i ++ ) {
		spotLight = spotLightShadows[ i ];
		shadow *= receiveShadow ? getShadow( spotShadowMap[ i ], spotLight.shadowMapSize, spotLight.shadowIntensity, spotLight.shadowBias, spotLight.shadowRadius, vSpotLightCoord[ i ] ) : 1.0;
	}
	#pragma unroll_loop_end
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0 && ( defined( SHADOWMAP_TYPE_PCF ) || defined( SHADOWMAP_TYPE_BASIC ) )
	PointLightShadow pointLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_POINT_LIGHT_SHADOWS; i ++ ) {
		pointLight = pointLightShadows[ i ];
		shadow *= receiveShadow ? getPointShadow( pointShadowMap[ i ], pointLight.shadowMapSize, pointLight.shadowIntensity, pointLight.shadowBias, pointLight.shadowRadius, vPointShadowCoord[ i ], pointLight.shadowCameraNear, pointLight.shadowCameraFar ) : 1.0;
	}
	#pragma unroll_loop_end
	#endif
	#endif
	return shadow;
}`,Mv=`#ifdef USE_SKINNING
	mat4 boneMatX = getBoneMatrix( skinIndex.x );
	mat4 boneMatY = getBoneMatrix( skinIndex.y );
	mat4 boneMatZ = getBoneMatrix( skinIndex.z );
	mat4 boneMatW = getBoneMatrix( skinIndex.w );
#endif`,Sv=`#ifdef USE_SKINNING
	uniform mat4 bindMatrix;
	uniform mat4 bindMatrixInverse;
	uniform highp sampler2D boneTexture;
	mat4 getBoneMatrix( const in float i ) {
		int size = textureSize( boneTexture, 0 ).x;
		int j = int( i ) * 4;
		int x = j % size;
		int y = j / size;
		vec4 v1 = texelFetch( boneTexture, ivec2( x, y ), 0 );
		vec4 v2 = texelFetch( boneTexture, ivec2( x + 1, y ), 0 );
		vec4 v3 = texelFetch( boneTexture, ivec2( x + 2, y ), 0 );
		vec4 v4 = texelFetch( boneTexture, ivec2( x + 3, y ), 0 );
		return mat4( v1, v2, v3, v4 );
	}
#endif`,bv=`#ifdef USE_SKINNING
	vec4 skinVertex = bindMatrix * vec4( transformed, 1.0 );
	vec4 skinned = vec4( 0.0 );
	skinned += boneMatX * skinVertex * skinWeight.x;
	skinned += boneMatY * skinVertex * skinWeight.y;
	skinned += boneMatZ * skinVertex * skinWeight.z;
	skinned += boneMatW * skinVertex * skinWeight.w;
	transformed = ( bindMatrixInverse * skinned ).xyz;
#endif`,wv=`#ifdef USE_SKINNING
	mat4 skinMatrix = mat4( 0.0 );
	skinMatrix += skinWeight.x * boneMatX;
	skinMatrix += skinWeight.y * boneMatY;
	skinMatrix += skinWeight.z * boneMatZ;
	skinMatrix += skinWeight.w * boneMatW;
	skinMatrix = bindMatrixInverse * skinMatrix * bindMatrix;
	objectNormal = vec4( skinMatrix * vec4( objectNormal, 0.0 ) ).xyz;
	#ifdef USE_TANGENT
		objectTangent = vec4( skinMatrix * vec4( objectTangent, 0.0 ) ).xyz;
	#endif
#endif`,Av=`float specularStrength;
#ifdef USE_SPECULARMAP
	vec4 texelSpecular = texture2D( specularMap, vSpecularMapUv );
	specularStrength = texelSpecular.r;
#else
	specularStrength = 1.0;
#endif`,Ev=`#ifdef USE_SPECULARMAP
	uniform sampler2D specularMap;
#endif`,Tv=`#if defined( TONE_MAPPING )
	gl_FragColor.rgb = toneMapping( gl_FragColor.rgb );
#endif`,Rv=`#ifndef saturate
#define saturate( a ) clamp( a, 0.0, 1.0 )
#endif
uniform float toneMappingExposure;
vec3 LinearToneMapping( vec3 color ) {
	return saturate( toneMappingExposure * color );
}
vec3 ReinhardToneMapping( vec3 color ) {
	color *= toneMappingExposure;
	return saturate( color / ( vec3( 1.0 ) + color ) );
}
vec3 CineonToneMapping( vec3 color ) {
	color *= toneMappingExposure;
	color = max( vec3( 0.0 ), color - 0.004 );
	return pow( ( color * ( 6.2 * color + 0.5 ) ) / ( color * ( 6.2 * color + 1.7 ) + 0.06 ), vec3( 2.2 ) );
}
vec3 RRTAndODTFit( vec3 v ) {
	vec3 a = v * ( v + 0.0245786 ) - 0.000090537;
	vec3 b = v * ( 0.983729 * v + 0.4329510 ) + 0.238081;
	return a / b;
}
vec3 ACESFilmicToneMapping( vec3 color ) {
	const mat3 ACESInputMat = mat3(
		vec3( 0.59719, 0.07600, 0.02840 ),		vec3( 0.35458, 0.90834, 0.13383 ),
		vec3( 0.04823, 0.01566, 0.83777 )
	);
	const mat3 ACESOutputMat = mat3(
		vec3(  1.60475, -0.10208, -0.00327 ),		vec3( -0.53108,  1.10813, -0.07276 ),
		vec3( -0.07367, -0.00605,  1.07602 )
	);
	color *= toneMappingExposure / 0.6;
	color = ACESInputMat * color;
	color = RRTAndODTFit( color );
	color = ACESOutputMat * color;
	return saturate( color );
}
const mat3 LINEAR_REC2020_TO_LINEAR_SRGB = mat3(
	vec3( 1.6605, - 0.1246, - 0.0182 ),
	vec3( - 0.5876, 1.1329, - 0.1006 ),
	vec3( - 0.0728, - 0.0083, 1.1187 )
);
const mat3 LINEAR_SRGB_TO_LINEAR_REC2020 = mat3(
	vec3( 0.6274, 0.0691, 0.0164 ),
	vec3( 0.3293, 0.9195, 0.0880 ),
	vec3( 0.0433, 0.0113, 0.8956 )
);
vec3 agxDefaultContrastApprox( vec3 x ) {
	vec3 x2 = x * x;
	vec3 x4 = x2 * x2;
	return + 15.5 * x4 * x2
		- 40.14 * x4 * x
		+ 31.96 * x4
		- 6.868 * x2 * x
		+ 0.4298 * x2
		+ 0.1191 * x
		- 0.00232;
}
vec3 AgXToneMapping( vec3 color ) {
	const mat3 AgXInsetMatrix = mat3(
		vec3( 0.856627153315983, 0.137318972929847, 0.11189821299995 ),
		vec3( 0.0951212405381588, 0.761241990602591, 0.0767994186031903 ),
		vec3( 0.0482516061458583, 0.101439036467562, 0.811302368396859 )
	);
	const mat3 AgXOutsetMatrix = mat3(
		vec3( 1.1271005818144368, - 0.1413297634984383, - 0.14132976349843826 ),
		vec3( - 0.11060664309660323, 1.157823702216272, - 0.11060664309660294 ),
		vec3( - 0.016493938717834573, - 0.016493938717834257, 1.2519364065950405 )
	);
	const float AgxMinEv = - 12.47393;	const float AgxMaxEv = 4.026069;
	color *= toneMappingExposure;
	color = LINEAR_SRGB_TO_LINEAR_REC2020 * color;
	color = AgXInsetMatrix * color;
	color = max( color, 1e-10 );	color = log2( color );
	color = ( color - AgxMinEv ) / ( AgxMaxEv - AgxMinEv );
	color = clamp( color, 0.0, 1.0 );
	color = agxDefaultContrastApprox( color );
	color = AgXOutsetMatrix * color;
	color = pow( max( vec3( 0.0 ), color ), vec3( 2.2 ) );
	color = LINEAR_REC2020_TO_LINEAR_SRGB * color;
	color = clamp( color, 0.0, 1.0 );
	return color;
}
vec3 NeutralToneMapping( vec3 color ) {
	const float StartCompression = 0.8 - 0.04;
	const float Desaturation = 0.15;
	color *= toneMappingExposure;
	float x = min( color.r, min( color.g, color.b ) );
	float offset = x < 0.08 ? x - 6.25 * x * x : 0.04;
	color -= offset;
	float peak = max( color.r, max( color.g, color.b ) );
	if ( peak < StartCompression ) return color;
	float d = 1. - StartCompression;
	float newPeak = 1. - d * d / ( peak + d - StartCompression );
	color *= newPeak / peak;
	float g = 1. - 1. / ( Desaturation * ( peak - newPeak ) + 1. );
	return mix( color, vec3( newPeak ), g );
}
vec3 CustomToneMapping( vec3 color ) { return color; }`,Cv=`#ifdef USE_TRANSMISSION
	material.transmission = transmission;
	material.transmissionAlpha = 1.0;
	material.thickness = thickness;
	material.attenuationDistance = attenuationDistance;
	material.attenuationColor = attenuationColor;
	#ifdef USE_TRANSMISSIONMAP
		material.transmission *= texture2D( transmissionMap, vTransmissionMapUv ).r;
	#endif
	#ifdef USE_THICKNESSMAP
		material.thickness *= texture2D( thicknessMap, vThicknessMapUv ).g;
	#endif
	vec3 pos = vWorldPosition;
	vec3 v = normalize( cameraPosition - pos );
	vec3 n = transformNormalByInverseViewMatrix( normal, viewMatrix );
	vec4 transmitted = getIBLVolumeRefraction(
		n, v, material.roughness, material.diffuseContribution, material.specularColorBlended, material.specularF90,
		pos, modelMatrix, viewMatrix, projectionMatrix, material.dispersion, material.ior, material.thickness,
		material.attenuationColor, material.attenuationDistance );
	material.transmissionAlpha = mix( material.transmissionAlpha, transmitted.a, material.transmission );
	totalDiffuse = mix( totalDiffuse, transmitted.rgb, material.transmission );
#endif`,Iv=`#ifdef USE_TRANSMISSION
	uniform float transmission;
	uniform float thickness;
	uniform float attenuationDistance;
	uniform vec3 attenuationColor;
	#ifdef USE_TRANSMISSIONMAP
		uniform sampler2D transmissionMap;
	#endif
	#ifdef USE_THICKNESSMAP
		uniform sampler2D thicknessMap;
	#endif
	uniform vec2 transmissionSamplerSize;
	uniform sampler2D transmissionSamplerMap;
	uniform mat4 modelMatrix;
	uniform mat4 projectionMatrix;
	varying vec3 vWorldPosition;
	float w0( float a ) {
		return ( 1.0 / 6.0 ) * ( a * ( a * ( - a + 3.0 ) - 3.0 ) + 1.0 );
	}
	float w1( float a ) {
		return ( 1.0 / 6.0 ) * ( a *  a * ( 3.0 * a - 6.0 ) + 4.0 );
	}
	float w2( float a ){
		return ( 1.0 / 6.0 ) * ( a * ( a * ( - 3.0 * a + 3.0 ) + 3.0 ) + 1.0 );
	}
	float w3( float a ) {
		return ( 1.0 / 6.0 ) * ( a * a * a );
	}
	float g0( float a ) {
		return w0( a ) + w1( a );
	}
	float g1( float a ) {
		return w2( a ) + w3( a );
	}
	float h0( float a ) {
		return - 1.0 + w1( a ) / ( w0( a ) + w1( a ) );
	}
	float h1( float a ) {
		return 1.0 + w3( a ) / ( w2( a ) + w3( a ) );
	}
	vec4 bicubic( sampler2D tex, vec2 uv, vec4 texelSize, float lod ) {
		uv = uv * texelSize.zw + 0.5;
		vec2 iuv = floor( uv );
		vec2 fuv = fract( uv );
		float g0x = g0( fuv.x );
		float g1x = g1( fuv.x );
		float h0x = h0( fuv.x );
		float h1x = h1( fuv.x );
		float h0y = h0( fuv.y );
		float h1y = h1( fuv.y );
		vec2 p0 = ( vec2( iuv.x + h0x, iuv.y + h0y ) - 0.5 ) * texelSize.xy;
		vec2 p1 = ( vec2( iuv.x + h1x, iuv.y + h0y ) - 0.5 ) * texelSize.xy;
		vec2 p2 = ( vec2( iuv.x + h0x, iuv.y + h1y ) - 0.5 ) * texelSize.xy;
		vec2 p3 = ( vec2( iuv.x + h1x, iuv.y + h1y ) - 0.5 ) * texelSize.xy;
		return g0( fuv.y ) * ( g0x * textureLod( tex, p0, lod ) + g1x * textureLod( tex, p1, lod ) ) +
			g1( fuv.y ) * ( g0x * textureLod( tex, p2, lod ) + g1x * textureLod( tex, p3, lod ) );
	}
	vec4 textureBicubic( sampler2D sampler, vec2 uv, float lod ) {
		vec2 fLodSize = vec2( textureSize( sampler, int( lod ) ) );
		vec2 cLodSize = vec2( textureSize( sampler, int( lod + 1.0 ) ) );
		vec2 fLodSizeInv = 1.0 / fLodSize;
		vec2 cLodSizeInv = 1.0 / cLodSize;
		vec4 fSample = bicubic( sampler, uv, vec4( fLodSizeInv, fLodSize ), floor( lod ) );
		vec4 cSample = bicubic( sampler, uv, vec4( cLodSizeInv, cLodSize ), ceil( lod ) );
		return mix( fSample, cSample, fract( lod ) );
	}
	vec3 getVolumeTransmissionRay( const in vec3 n, const in vec3 v, const in float thickness, const in float ior, const in mat4 modelMatrix ) {
		vec3 refractionVector = refract( - v, normalize( n ), 1.0 / ior );
		vec3 modelScale;
		modelScale.x = length( vec3( modelMatrix[ 0 ].xyz ) );
		modelScale.y = length( vec3( modelMatrix[ 1 ].xyz ) );
		modelScale.z = length( vec3( modelMatrix[ 2 ].xyz ) );
		return normalize( refractionVector ) * thickness * modelScale;
	}
	float applyIorToRoughness( const in float roughness, const in float ior ) {
		return roughness * clamp( ior * 2.0 - 2.0, 0.0, 1.0 );
	}
	vec4 getTransmissionSample( const in vec2 fragCoord, const in float roughness, const in float ior ) {
		float lod = log2( transmissionSamplerSize.x ) * applyIorToRoughness( roughness, ior );
		return textureBicubic( transmissionSamplerMap, fragCoord.xy, lod );
	}
	vec3 volumeAttenuation( const in float transmissionDistance, const in vec3 attenuationColor, const in float attenuationDistance ) {
		if ( isinf( attenuationDistance ) ) {
			return vec3( 1.0 );
		} else {
			vec3 attenuationCoefficient = -log( attenuationColor ) / attenuationDistance;
			vec3 transmittance = exp( - attenuationCoefficient * transmissionDistance );			return transmittance;
		}
	}
	vec4 getIBLVolumeRefraction( const in vec3 n, const in vec3 v, const in float roughness, const in vec3 diffuseColor,
		const in vec3 specularColor, const in float specularF90, const in vec3 position, const in mat4 modelMatrix,
		const in mat4 viewMatrix, const in mat4 projMatrix, const in float dispersion, const in float ior, const in float thickness,
		const in vec3 attenuationColor, const in float attenuationDistance ) {
		vec4 transmittedLight;
		vec3 transmittance;
		#ifdef USE_DISPERSION
			float halfSpread = ( ior - 1.0 ) * 0.025 * dispersion;
			vec3 iors = vec3( ior - halfSpread, ior, ior + halfSpread );
			for ( int i = 0; i < 3; i ++ ) {
				vec3 transmissionRay = getVolumeTransmissionRay( n, v, thickness, iors[ i ], modelMatrix );
				vec3 refractedRayExit = position + transmissionRay;
				vec4 ndcPos = projMatrix * viewMatrix * vec4( refractedRayExit, 1.0 );
				vec2 refractionCoords = ndcPos.xy / ndcPos.w;
				refractionCoords += 1.0;
				refractionCoords /= 2.0;
				vec4 transmissionSample = getTransmissionSample( refractionCoords, roughness, iors[ i ] );
				transmittedLight[ i ] = transmissionSample[ i ];
				transmittedLight.a += transmissionSample.a;
				transmittance[ i ] = diffuseColor[ i ] * volumeAttenuation( length( transmissionRay ), attenuationColor, attenuationDistance )[ i ];
			}
			transmittedLight.a /= 3.0;
		#else
			vec3 transmissionRay = getVolumeTransmissionRay( n, v, thickness, ior, modelMatrix );
			vec3 refractedRayExit = position + transmissionRay;
			vec4 ndcPos = projMatrix * viewMatrix * vec4( refractedRayExit, 1.0 );
			vec2 refractionCoords = ndcPos.xy / ndcPos.w;
			refractionCoords += 1.0;
			refractionCoords /= 2.0;
			transmittedLight = getTransmissionSample( refractionCoords, roughness, ior );
			transmittance = diffuseColor * volumeAttenuation( length( transmissionRay ), attenuationColor, attenuationDistance );
		#endif
		vec3 attenuatedColor = transmittance * transmittedLight.rgb;
		vec3 F = EnvironmentBRDF( n, v, specularColor, specularF90, roughness );
		float transmittanceFactor = ( transmittance.r + transmittance.g + transmittance.b ) / 3.0;
		return vec4( ( 1.0 - F ) * attenuatedColor, 1.0 - ( 1.0 - transmittedLight.a ) * transmittanceFactor );
	}
#endif`,Pv=`#if defined( USE_UV ) || defined( USE_ANISOTROPY )
	varying vec2 vUv;
#endif
#ifdef USE_MAP
	varying vec2 vMapUv;
#endif
#ifdef USE_ALPHAMAP
	varying vec2 vAlphaMapUv;
#endif
#ifdef USE_LIGHTMAP
	varying vec2 vLightMapUv;
#endif
#ifdef USE_AOMAP
	varying vec2 vAoMapUv;
#endif
#ifdef USE_BUMPMAP
	varying vec2 vBumpMapUv;
#endif
#ifdef USE_NORMALMAP
	varying vec2 vNormalMapUv;
#endif
#ifdef USE_EMISSIVEMAP
	varying vec2 vEmissiveMapUv;
#endif
#ifdef USE_METALNESSMAP
	varying vec2 vMetalnessMapUv;
#endif
#ifdef USE_ROUGHNESSMAP
	varying vec2 vRoughnessMapUv;
#endif
#ifdef USE_DIFFUSE_ROUGHNESSMAP
	varying vec2 vDiffuseRoughnessMapUv;
#endif
#ifdef USE_ANISOTROPYMAP
	varying vec2 vAnisotropyMapUv;
#endif
#ifdef USE_CLEARCOATMAP
	varying vec2 vClearcoatMapUv;
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	varying vec2 vClearcoatNormalMapUv;
#endif
#ifdef USE_CLEARCOAT_ROUGHNESSMAP
	varying vec2 vClearcoatRoughnessMapUv;
#endif
#ifdef USE_IRIDESCENCEMAP
	varying vec2 vIridescenceMapUv;
#endif
#ifdef USE_IRIDESCENCE_THICKNESSMAP
	varying vec2 vIridescenceThicknessMapUv;
#endif
#ifdef USE_SHEEN_COLORMAP
	varying vec2 vSheenColorMapUv;
#endif
#ifdef USE_SHEEN_ROUGHNESSMAP
	varying vec2 vSheenRoughnessMapUv;
#endif
#ifdef USE_SPECULARMAP
	varying vec2 vSpecularMapUv;
#endif
#ifdef USE_SPECULAR_COLORMAP
	varying vec2 vSpecularColorMapUv;
#endif
#ifdef USE_SPECULAR_INTENSITYMAP
	varying vec2 vSpecularIntensityMapUv;
#endif
#ifdef USE_TRANSMISSIONMAP
	uniform mat3 transmissionMapTransform;
	varying vec2 vTransmissionMapUv;
#endif
#ifdef USE_THICKNESSMAP
	uniform mat3 thicknessMapTransform;
	varying vec2 vThicknessMapUv;
#endif`,Lv=`#if defined( USE_UV ) || defined( USE_ANISOTROPY )
	varying vec2 vUv;
#endif
#ifdef USE_MAP
	uniform mat3 mapTransform;
	varying vec2 vMapUv;
#endif
#ifdef USE_ALPHAMAP
	uniform mat3 alphaMapTransform;
	varying vec2 vAlphaMapUv;
#endif
#ifdef USE_LIGHTMAP
	uniform mat3 lightMapTransform;
	varying vec2 vLightMapUv;
#endif
#ifdef USE_AOMAP
	uniform mat3 aoMapTransform;
	varying vec2 vAoMapUv;
#endif
#ifdef USE_BUMPMAP
	uniform mat3 bumpMapTransform;
	varying vec2 vBumpMapUv;
#endif
#ifdef USE_NORMALMAP
	uniform mat3 normalMapTransform;
	varying vec2 vNormalMapUv;
#endif
#ifdef USE_DISPLACEMENTMAP
	uniform mat3 displacementMapTransform;
	varying vec2 vDisplacementMapUv;
#endif
#ifdef USE_EMISSIVEMAP
	uniform mat3 emissiveMapTransform;
	varying vec2 vEmissiveMapUv;
#endif
#ifdef USE_METALNESSMAP
	uniform mat3 metalnessMapTransform;
	varying vec2 vMetalnessMapUv;
#endif
#ifdef USE_ROUGHNESSMAP
	uniform mat3 roughnessMapTransform;
	varying vec2 vRoughnessMapUv;
#endif
#ifdef USE_DIFFUSE_ROUGHNESSMAP
	uniform mat3 diffuseRoughnessMapTransform;
	varying vec2 vDiffuseRoughnessMapUv;
#endif
#ifdef USE_ANISOTROPYMAP
	uniform mat3 anisotropyMapTransform;
	varying vec2 vAnisotropyMapUv;
#endif
#ifdef USE_CLEARCOATMAP
	uniform mat3 clearcoatMapTransform;
	varying vec2 vClearcoatMapUv;
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	uniform mat3 clearcoatNormalMapTransform;
	varying vec2 vClearcoatNormalMapUv;
#endif
#ifdef USE_CLEARCOAT_ROUGHNESSMAP
	uniform mat3 clearcoatRoughnessMapTransform;
	varying vec2 vClearcoatRoughnessMapUv;
#endif
#ifdef USE_SHEEN_COLORMAP
	uniform mat3 sheenColorMapTransform;
	varying vec2 vSheenColorMapUv;
#endif
#ifdef USE_SHEEN_ROUGHNESSMAP
	uniform mat3 sheenRoughnessMapTransform;
	varying vec2 vSheenRoughnessMapUv;
#endif
#ifdef USE_IRIDESCENCEMAP
	uniform mat3 iridescenceMapTransform;
	varying vec2 vIridescenceMapUv;
#endif
#ifdef USE_IRIDESCENCE_THICKNESSMAP
	uniform mat3 iridescenceThicknessMapTransform;
	varying vec2 vIridescenceThicknessMapUv;
#endif
#ifdef USE_SPECULARMAP
	uniform mat3 specularMapTransform;
	varying vec2 vSpecularMapUv;
#endif
#ifdef USE_SPECULAR_COLORMAP
	uniform mat3 specularColorMapTransform;
	varying vec2 vSpecularColorMapUv;
#endif
#ifdef USE_SPECULAR_INTENSITYMAP
	uniform mat3 specularIntensityMapTransform;
	varying vec2 vSpecularIntensityMapUv;
#endif
#ifdef USE_TRANSMISSIONMAP
	uniform mat3 transmissionMapTransform;
	varying vec2 vTransmissionMapUv;
#endif
#ifdef USE_THICKNESSMAP
	uniform mat3 thicknessMapTransform;
	varying vec2 vThicknessMapUv;
#endif`,Nv=`#if defined( USE_UV ) || defined( USE_ANISOTROPY )
	vUv = vec3( uv, 1 ).xy;
#endif
#ifdef USE_MAP
	vMapUv = ( mapTransform * vec3( MAP_UV, 1 ) ).xy;
#endif
#ifdef USE_ALPHAMAP
	vAlphaMapUv = ( alphaMapTransform * vec3( ALPHAMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_LIGHTMAP
	vLightMapUv = ( lightMapTransform * vec3( LIGHTMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_AOMAP
	vAoMapUv = ( aoMapTransform * vec3( AOMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_BUMPMAP
	vBumpMapUv = ( bumpMapTransform * vec3( BUMPMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_NORMALMAP
	vNormalMapUv = ( normalMapTransform * vec3( NORMALMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_DISPLACEMENTMAP
	vDisplacementMapUv = ( displacementMapTransform * vec3( DISPLACEMENTMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_EMISSIVEMAP
	vEmissiveMapUv = ( emissiveMapTransform * vec3( EMISSIVEMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_METALNESSMAP
	vMetalnessMapUv = ( metalnessMapTransform * vec3( METALNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_ROUGHNESSMAP
	vRoughnessMapUv = ( roughnessMapTransform * vec3( ROUGHNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_DIFFUSE_ROUGHNESSMAP
	vDiffuseRoughnessMapUv = ( diffuseRoughnessMapTransform * vec3( DIFFUSE_ROUGHNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_ANISOTROPYMAP
	vAnisotropyMapUv = ( anisotropyMapTransform * vec3( ANISOTROPYMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_CLEARCOATMAP
	vClearcoatMapUv = ( clearcoatMapTransform * vec3( CLEARCOATMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	vClearcoatNormalMapUv = ( clearcoatNormalMapTransform * vec3( CLEARCOAT_NORMALMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_CLEARCOAT_ROUGHNESSMAP
	vClearcoatRoughnessMapUv = ( clearcoatRoughnessMapTransform * vec3( CLEARCOAT_ROUGHNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_IRIDESCENCEMAP
	vIridescenceMapUv = ( iridescenceMapTransform * vec3( IRIDESCENCEMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_IRIDESCENCE_THICKNESSMAP
	vIridescenceThicknessMapUv = ( iridescenceThicknessMapTransform * vec3( IRIDESCENCE_THICKNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SHEEN_COLORMAP
	vSheenColorMapUv = ( sheenColorMapTransform * vec3( SHEEN_COLORMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SHEEN_ROUGHNESSMAP
	vSheenRoughnessMapUv = ( sheenRoughnessMapTransform * vec3( SHEEN_ROUGHNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SPECULARMAP
	vSpecularMapUv = ( specularMapTransform * vec3( SPECULARMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SPECULAR_COLORMAP
	vSpecularColorMapUv = ( specularColorMapTransform * vec3( SPECULAR_COLORMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SPECULAR_INTENSITYMAP
	vSpecularIntensityMapUv = ( specularIntensityMapTransform * vec3( SPECULAR_INTENSITYMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_TRANSMISSIONMAP
	vTransmissionMapUv = ( transmissionMapTransform * vec3( TRANSMISSIONMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_THICKNESSMAP
	vThicknessMapUv = ( thicknessMapTransform * vec3( THICKNESSMAP_UV, 1 ) ).xy;
#endif`,Dv=`#if defined( USE_ENVMAP ) || defined( DISTANCE ) || defined ( USE_SHADOWMAP ) || defined ( USE_TRANSMISSION ) || NUM_SPOT_LIGHT_COORDS > 0
	vec4 worldPosition = vec4( transformed, 1.0 );
	#ifdef USE_BATCHING
		worldPosition = batchingMatrix * worldPosition;
	#endif
	#ifdef USE_INSTANCING
		worldPosition = instanceMatrix * worldPosition;
	#endif
	worldPosition = modelMatrix * worldPosition;
#endif`,Uv=`varying vec2 vUv;
uniform mat3 uvTransform;
void main() {
	vUv = ( uvTransform * vec3( uv, 1 ) ).xy;
	gl_Position = vec4( position.xy, 1.0, 1.0 );
}`,Ov=`uniform sampler2D t2D;
uniform float backgroundIntensity;
varying vec2 vUv;
void main() {
	vec4 texColor = texture2D( t2D, vUv );
	#ifdef DECODE_VIDEO_TEXTURE
		texColor = vec4( mix( pow( texColor.rgb * 0.9478672986 + vec3( 0.0521327014 ), vec3( 2.4 ) ), texColor.rgb * 0.0773993808, vec3( lessThanEqual( texColor.rgb, vec3( 0.04045 ) ) ) ), texColor.w );
	#endif
	texColor.rgb *= backgroundIntensity;
	gl_FragColor = texColor;
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
}`,Fv=`varying vec3 vWorldDirection;
#include <common>
void main() {
	vWorldDirection = transformDirection( position, modelMatrix );
	#include <begin_vertex>
	#include <project_vertex>
	gl_Position.z = gl_Position.w;
}`,Bv=`uniform float backgroundBlurriness;
uniform float backgroundIntensity;
uniform mat3 backgroundRotation;
varying vec3 vWorldDirection;
#include <envmap_common_pars_fragment>
void main() {
	#ifdef ENVMAP_TYPE_PMREM
		vec4 texColor = textureLod( envMap, backgroundRotation * vWorldDirection, roughnessToMip( backgroundBlurriness ) );
	#else
		vec4 texColor = textureCube( envMap, backgroundRotation * vWorldDirection );
	#endif
	texColor.rgb *= backgroundIntensity;
	gl_FragColor = texColor;
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
}`,kv=`varying vec3 vWorldDirection;
#include <common>
void main() {
	vWorldDirection = transformDirection( position, modelMatrix );
	#include <begin_vertex>
	#include <project_vertex>
	gl_Position.z = gl_Position.w;
}`,zv=`uniform samplerCube tCube;
uniform float tFlip;
uniform float opacity;
varying vec3 vWorldDirection;
void main() {
	vec4 texColor = textureCube( tCube, vec3( tFlip * vWorldDirection.x, vWorldDirection.yz ) );
	gl_FragColor = texColor;
	gl_FragColor.a *= opacity;
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
}`,Gv=`#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
varying vec2 vHighPrecisionZW;
void main() {
	#include <uv_vertex>
	#include <batching_vertex>
	#include <skinbase_vertex>
	#include <morphinstance_vertex>
	#ifdef USE_DISPLACEMENTMAP
		#include <beginnormal_vertex>
		#include <morphnormal_vertex>
		#include <skinnormal_vertex>
	#endif
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vHighPrecisionZW = gl_Position.zw;
}`,Vv=`#if DEPTH_PACKING == 3200
	uniform float opacity;
#endif
#include <common>
#include <packing>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
varying vec2 vHighPrecisionZW;
void main() {
	vec4 diffuseColor = vec4( 1.0 );
	#include <clipping_planes_fragment>
	#if DEPTH_PACKING == 3200
		diffuseColor.a = opacity;
	#endif
	#include <map_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <logdepthbuf_fragment>
	#ifdef USE_REVERSED_DEPTH_BUFFER
		float fragCoordZ = vHighPrecisionZW[ 0 ] / vHighPrecisionZW[ 1 ];
	#else
		float fragCoordZ = 0.5 * vHighPrecisionZW[ 0 ] / vHighPrecisionZW[ 1 ] + 0.5;
	#endif
	#if DEPTH_PACKING == 3200
		gl_FragColor = vec4( vec3( 1.0 - fragCoordZ ), opacity );
	#elif DEPTH_PACKING == 3201
		gl_FragColor = packDepthToRGBA( fragCoordZ );
	#elif DEPTH_PACKING == 3202
		gl_FragColor = vec4( packDepthToRGB( fragCoordZ ), 1.0 );
	#elif DEPTH_PACKING == 3203
		gl_FragColor = vec4( packDepthToRG( fragCoordZ ), 0.0, 1.0 );
	#endif
}`,Hv=`#define DISTANCE
varying vec3 vWorldPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <batching_vertex>
	#include <skinbase_vertex>
	#include <morphinstance_vertex>
	#ifdef USE_DISPLACEMENTMAP
		#include <beginnormal_vertex>
		#include <morphnormal_vertex>
		#include <skinnormal_vertex>
	#endif
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <worldpos_vertex>
	#include <clipping_planes_vertex>
	vWorldPosition = worldPosition.xyz;
}`,Wv=`#define DISTANCE
uniform vec3 referencePosition;
uniform float nearDistance;
uniform float farDistance;
varying vec3 vWorldPosition;
#include <common>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( 1.0 );
	#include <clipping_planes_fragment>
	#include <map_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	float dist = length( vWorldPosition - referencePosition );
	dist = ( dist - nearDistance ) / ( farDistance - nearDistance );
	dist = saturate( dist );
	gl_FragColor = vec4( dist, 0.0, 0.0, 1.0 );
}`,Xv=`varying vec3 vWorldDirection;
#include <common>
void main() {
	vWorldDirection = transformDirection( position, modelMatrix );
	#include <begin_vertex>
	#include <project_vertex>
}`,$v=`uniform sampler2D tEquirect;
varying vec3 vWorldDirection;
#include <common>
void main() {
	vec3 direction = normalize( vWorldDirection );
	vec2 sampleUV = equirectUv( direction );
	gl_FragColor = texture2D( tEquirect, sampleUV );
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
}`,qv=`uniform float scale;
attribute float lineDistance;
varying float vLineDistance;
#include <common>
#include <uv_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <morphtarget_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	vLineDistance = scale * lineDistance;
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <fog_vertex>
}`,Yv=`uniform vec3 diffuse;
uniform float opacity;
uniform float dashSize;
uniform float totalSize;
varying float vLineDistance;
#include <common>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <fog_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	if ( mod( vLineDistance, totalSize ) > dashSize ) {
		discard;
	}
	vec3 outgoingLight = vec3( 0.0 );
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	outgoingLight = diffuseColor.rgb;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
}`,Zv=`#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <envmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#if defined ( USE_ENVMAP ) || defined ( USE_SKINNING )
		#include <beginnormal_vertex>
		#include <morphnormal_vertex>
		#include <skinbase_vertex>
		#include <skinnormal_vertex>
		#include <defaultnormal_vertex>
	#endif
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <worldpos_vertex>
	#include <envmap_vertex>
	#include <fog_vertex>
}`,Jv=`uniform vec3 diffuse;
uniform float opacity;
#ifndef FLAT_SHADED
	varying vec3 vNormal;
#endif
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <envmap_common_pars_fragment>
#include <envmap_pars_fragment>
#include <fog_pars_fragment>
#include <specularmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <specularmap_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	#ifdef USE_LIGHTMAP
		vec4 lightMapTexel = texture2D( lightMap, vLightMapUv );
		reflectedLight.indirectDiffuse += lightMapTexel.rgb * lightMapIntensity * RECIPROCAL_PI;
	#else
		reflectedLight.indirectDiffuse += vec3( 1.0 );
	#endif
	#include <aomap_fragment>
	reflectedLight.indirectDiffuse *= diffuseColor.rgb;
	vec3 outgoingLight = reflectedLight.indirectDiffuse;
	#include <envmap_fragment>
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,Kv=`#define LAMBERT
varying vec3 vViewPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <envmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <shadowmap_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vViewPosition = - mvPosition.xyz;
	#include <worldpos_vertex>
	#include <envmap_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
}`,jv=`#define LAMBERT
uniform vec3 diffuse;
uniform vec3 emissive;
uniform float opacity;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <emissivemap_pars_fragment>
#include <envmap_common_pars_fragment>
#include <envmap_pars_fragment>
#include <envmap_physical_pars_fragment>
#include <fog_pars_fragment>
#include <bsdfs>
#include <lights_pars_begin>
#include <normal_pars_fragment>
#include <lights_lambert_pars_fragment>
#include <shadowmap_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <specularmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	vec3 totalEmissiveRadiance = emissive;
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <specularmap_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	#include <emissivemap_fragment>
	#include <lights_lambert_fragment>
	#include <lights_fragment_begin>
	#include <lights_fragment_maps>
	#include <lights_fragment_end>
	#include <aomap_fragment>
	vec3 outgoingLight = reflectedLight.directDiffuse + reflectedLight.indirectDiffuse + totalEmissiveRadiance;
	#include <envmap_fragment>
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,Qv=`#define MATCAP
varying vec3 vViewPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <color_pars_vertex>
#include <displacementmap_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <fog_vertex>
	vViewPosition = - mvPosition.xyz;
}`,tM=`#define MATCAP
uniform vec3 diffuse;
uniform float opacity;
uniform sampler2D matcap;
varying vec3 vViewPosition;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <fog_pars_fragment>
#include <normal_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	vec3 viewDir = normalize( vViewPosition );
	vec3 x = normalize( vec3( viewDir.z, 0.0, - viewDir.x ) );
	vec3 y = cross( viewDir, x );
	vec2 uv = vec2( dot( x, normal ), dot( y, normal ) ) * 0.495 + 0.5;
	#ifdef USE_MATCAP
		vec4 matcapColor = texture2D( matcap, uv );
	#else
		vec4 matcapColor = vec4( vec3( mix( 0.2, 0.8, uv.y ) ), 1.0 );
	#endif
	vec3 outgoingLight = diffuseColor.rgb * matcapColor.rgb;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,eM=`#define NORMAL
#if defined( FLAT_SHADED ) || defined( USE_BUMPMAP ) || defined( USE_NORMALMAP_TANGENTSPACE )
	varying vec3 vViewPosition;
#endif
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphinstance_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
#if defined( FLAT_SHADED ) || defined( USE_BUMPMAP ) || defined( USE_NORMALMAP_TANGENTSPACE )
	vViewPosition = - mvPosition.xyz;
#endif
}`,nM=`#define NORMAL
uniform float opacity;
#if defined( FLAT_SHADED ) || defined( USE_BUMPMAP ) || defined( USE_NORMALMAP_TANGENTSPACE )
	varying vec3 vViewPosition;
#endif
#include <uv_pars_fragment>
#include <normal_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( 0.0, 0.0, 0.0, opacity );
	#include <clipping_planes_fragment>
	#include <logdepthbuf_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	gl_FragColor = vec4( normalize( normal ) * 0.5 + 0.5, diffuseColor.a );
	#ifdef OPAQUE
		gl_FragColor.a = 1.0;
	#endif
}`,iM=`#define PHONG
varying vec3 vViewPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <envmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <shadowmap_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphinstance_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vViewPosition = - mvPosition.xyz;
	#include <worldpos_vertex>
	#include <envmap_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
}`,sM=`#define PHONG
uniform vec3 diffuse;
uniform vec3 emissive;
uniform vec3 specular;
uniform float shininess;
uniform float opacity;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <emissivemap_pars_fragment>
#include <envmap_common_pars_fragment>
#include <envmap_pars_fragment>
#include <envmap_physical_pars_fragment>
#include <fog_pars_fragment>
#include <bsdfs>
#include <lights_pars_begin>
#include <normal_pars_fragment>
#include <lights_phong_pars_fragment>
#include <shadowmap_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <specularmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	vec3 totalEmissiveRadiance = emissive;
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <specularmap_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	#include <emissivemap_fragment>
	#include <lights_phong_fragment>
	#include <lights_fragment_begin>
	#include <lights_fragment_maps>
	#include <lights_fragment_end>
	#include <aomap_fragment>
	vec3 outgoingLight = reflectedLight.directDiffuse + reflectedLight.indirectDiffuse + reflectedLight.directSpecular + reflectedLight.indirectSpecular + totalEmissiveRadiance;
	#include <envmap_fragment>
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,rM=`#define STANDARD
varying vec3 vViewPosition;
#ifdef USE_TRANSMISSION
	varying vec3 vWorldPosition;
#endif
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <shadowmap_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vViewPosition = - mvPosition.xyz;
	#include <worldpos_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
#ifdef USE_TRANSMISSION
	vWorldPosition = worldPosition.xyz;
#endif
}`,oM=`#define STANDARD
#ifdef PHYSICAL
	#define IOR
	#define USE_SPECULAR
#endif
uniform vec3 diffuse;
uniform vec3 emissive;
uniform float roughness;
uniform float metalness;
uniform float opacity;
#ifdef IOR
	uniform float ior;
#endif
#ifdef USE_SPECULAR
	uniform float specularIntensity;
	uniform vec3 specularColor;
	#ifdef USE_SPECULAR_COLORMAP
		uniform sampler2D specularColorMap;
	#endif
	#ifdef USE_SPECULAR_INTENSITYMAP
		uniform sampler2D specularIntensityMap;
	#endif
#endif
#ifdef USE_CLEARCOAT
	uniform float clearcoat;
	uniform float clearcoatRoughness;
#endif
#ifdef USE_DIFFUSE_ROUGHNESS
	uniform float diffuseRoughness;
	#ifdef USE_DIFFUSE_ROUGHNESSMAP
		uniform sampler2D diffuseRoughnessMap;
	#endif
#endif
#ifdef USE_DISPERSION
	uniform float dispersion;
#endif
#ifdef USE_RETROREFLECTION
	uniform float retroreflectivity;
#endif
#ifdef USE_IRIDESCENCE
	uniform float iridescence;
	uniform float iridescenceIOR;
	uniform float iridescenceThicknessMinimum;
	uniform float iridescenceThicknessMaximum;
#endif
#ifdef USE_SHEEN
	uniform vec3 sheenColor;
	uniform float sheenRoughness;
	#ifdef USE_SHEEN_COLORMAP
		uniform sampler2D sheenColorMap;
	#endif
	#ifdef USE_SHEEN_ROUGHNESSMAP
		uniform sampler2D sheenRoughnessMap;
	#endif
#endif
#ifdef USE_ANISOTROPY
	uniform vec2 anisotropyVector;
	#ifdef USE_ANISOTROPYMAP
		uniform sampler2D anisotropyMap;
	#endif
#endif
varying vec3 vViewPosition;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <emissivemap_pars_fragment>
#include <iridescence_fragment>
#include <envmap_common_pars_fragment>
#include <envmap_physical_pars_fragment>
#include <fog_pars_fragment>
#include <lights_pars_begin>
#include <normal_pars_fragment>
#include <lights_physical_pars_fragment>
#include <transmission_pars_fragment>
#include <shadowmap_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <clearcoat_pars_fragment>
#include <iridescence_pars_fragment>
#include <roughnessmap_pars_fragment>
#include <metalnessmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	vec3 totalEmissiveRadiance = emissive;
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <roughnessmap_fragment>
	#include <metalnessmap_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	#include <clearcoat_normal_fragment_begin>
	#include <clearcoat_normal_fragment_maps>
	#include <emissivemap_fragment>
	#include <lights_physical_fragment>
	#include <lights_fragment_begin>
	#include <lights_fragment_maps>
	#include <lights_fragment_end>
	#include <aomap_fragment>
	vec3 totalDiffuse = reflectedLight.directDiffuse + reflectedLight.indirectDiffuse;
	vec3 totalSpecular = reflectedLight.directSpecular + reflectedLight.indirectSpecular;
	#include <transmission_fragment>
	vec3 outgoingLight = totalDiffuse + totalSpecular + totalEmissiveRadiance;
	#ifdef USE_SHEEN
 
		outgoingLight = outgoingLight + sheenSpecularDirect + sheenSpecularIndirect;
 
 	#endif
	#ifdef USE_CLEARCOAT
		float dotNVcc = saturate( dot( geometryClearcoatNormal, geometryViewDir ) );
		vec3 Fcc = F_Schlick( material.clearcoatF0, material.clearcoatF90, dotNVcc );
		outgoingLight = outgoingLight * ( 1.0 - material.clearcoat * Fcc ) + ( clearcoatSpecularDirect + clearcoatSpecularIndirect ) * material.clearcoat;
	#endif
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,aM=`#define TOON
varying vec3 vViewPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <shadowmap_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vViewPosition = - mvPosition.xyz;
	#include <worldpos_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
}`,lM=`#define TOON
uniform vec3 diffuse;
uniform vec3 emissive;
uniform float opacity;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <emissivemap_pars_fragment>
#include <gradientmap_pars_fragment>
#include <fog_pars_fragment>
#include <bsdfs>
#include <lights_pars_begin>
#include <normal_pars_fragment>
#include <lights_toon_pars_fragment>
#include <shadowmap_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	vec3 totalEmissiveRadiance = emissive;
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	#include <emissivemap_fragment>
	#include <lights_toon_fragment>
	#include <lights_fragment_begin>
	#include <lights_fragment_maps>
	#include <lights_fragment_end>
	#include <aomap_fragment>
	vec3 outgoingLight = reflectedLight.directDiffuse + reflectedLight.indirectDiffuse + totalEmissiveRadiance;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,cM=`uniform float size;
uniform float scale;
#include <common>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <morphtarget_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
#ifdef USE_POINTS_UV
	varying vec2 vUv;
	uniform mat3 uvTransform;
#endif
void main() {
	#ifdef USE_POINTS_UV
		vUv = ( uvTransform * vec3( uv, 1 ) ).xy;
	#endif
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <project_vertex>
	gl_PointSize = size;
	#ifdef USE_SIZEATTENUATION
		bool isPerspective = isPerspectiveMatrix( projectionMatrix );
		if ( isPerspective ) gl_PointSize *= ( scale / - mvPosition.z );
	#endif
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <worldpos_vertex>
	#include <fog_vertex>
}`,hM=`uniform vec3 diffuse;
uniform float opacity;
#include <common>
#include <color_pars_fragment>
#include <map_particle_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <fog_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	vec3 outgoingLight = vec3( 0.0 );
	#include <logdepthbuf_fragment>
	#include <map_particle_fragment>
	#include <color_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	outgoingLight = diffuseColor.rgb;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
}`,uM=`#include <common>
#include <batching_pars_vertex>
#include <fog_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <shadowmap_pars_vertex>
void main() {
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphinstance_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <worldpos_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
}`,dM=`uniform vec3 color;
uniform float opacity;
#include <common>
#include <fog_pars_fragment>
#include <bsdfs>
#include <lights_pars_begin>
#include <logdepthbuf_pars_fragment>
#include <shadowmap_pars_fragment>
#include <shadowmask_pars_fragment>
void main() {
	#include <logdepthbuf_fragment>
	gl_FragColor = vec4( color, opacity * ( 1.0 - getShadowMask() ) );
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
}`,fM=`uniform float rotation;
uniform vec2 center;
#include <common>
#include <uv_pars_vertex>
#include <fog_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	vec4 mvPosition = modelViewMatrix[ 3 ];
	vec2 scale = vec2( length( modelMatrix[ 0 ].xyz ), length( modelMatrix[ 1 ].xyz ) );
	#ifndef USE_SIZEATTENUATION
		bool isPerspective = isPerspectiveMatrix( projectionMatrix );
		if ( isPerspective ) scale *= - mvPosition.z;
	#endif
	vec2 alignedPosition = ( position.xy - ( center - vec2( 0.5 ) ) ) * scale;
	vec2 rotatedPosition;
	rotatedPosition.x = cos( rotation ) * alignedPosition.x - sin( rotation ) * alignedPosition.y;
	rotatedPosition.y = sin( rotation ) * alignedPosition.x + cos( rotation ) * alignedPosition.y;
	mvPosition.xy += rotatedPosition;
	gl_Position = projectionMatrix * mvPosition;
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <fog_vertex>
}`,pM=`uniform vec3 diffuse;
uniform float opacity;
#include <common>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <fog_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	vec3 outgoingLight = vec3( 0.0 );
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	outgoingLight = diffuseColor.rgb;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
}`,Wt={alphahash_fragment:Ox,alphahash_pars_fragment:Fx,alphamap_fragment:Bx,alphamap_pars_fragment:kx,alphatest_fragment:zx,alphatest_pars_fragment:Gx,aomap_fragment:Vx,aomap_pars_fragment:Hx,batching_pars_vertex:Wx,batching_vertex:Xx,begin_vertex:$x,beginnormal_vertex:qx,bsdfs:Yx,iridescence_fragment:Zx,bumpmap_pars_fragment:Jx,clipping_planes_fragment:Kx,clipping_planes_pars_fragment:jx,clipping_planes_pars_vertex:Qx,clipping_planes_vertex:ty,color_fragment:ey,color_pars_fragment:ny,color_pars_vertex:iy,color_vertex:sy,common:ry,defaultnormal_vertex:oy,displacementmap_pars_vertex:ay,displacementmap_vertex:ly,emissivemap_fragment:cy,emissivemap_pars_fragment:hy,colorspace_fragment:uy,colorspace_pars_fragment:dy,envmap_fragment:fy,envmap_common_pars_fragment:py,envmap_pars_fragment:my,envmap_pars_vertex:gy,envmap_physical_pars_fragment:Ty,envmap_vertex:_y,fog_vertex:xy,fog_pars_vertex:yy,fog_fragment:vy,fog_pars_fragment:My,gradientmap_pars_fragment:Sy,lightmap_pars_fragment:by,lights_lambert_fragment:wy,lights_lambert_pars_fragment:Ay,lights_pars_begin:Ey,lights_toon_fragment:Ry,lights_toon_pars_fragment:Cy,lights_phong_fragment:Iy,lights_phong_pars_fragment:Py,lights_physical_fragment:Ly,lights_physical_pars_fragment:Ny,lights_fragment_begin:Dy,lights_fragment_maps:Uy,lights_fragment_end:Oy,lightprobes_pars_fragment:Fy,logdepthbuf_fragment:By,logdepthbuf_pars_fragment:ky,logdepthbuf_pars_vertex:zy,logdepthbuf_vertex:Gy,map_fragment:Vy,map_pars_fragment:Hy,map_particle_fragment:Wy,map_particle_pars_fragment:Xy,metalnessmap_fragment:$y,metalnessmap_pars_fragment:qy,morphinstance_vertex:Yy,morphcolor_vertex:Zy,morphnormal_vertex:Jy,morphtarget_pars_vertex:Ky,morphtarget_vertex:jy,normal_fragment_begin:Qy,normal_fragment_maps:tv,normal_pars_fragment:ev,normal_pars_vertex:nv,normal_vertex:iv,normalmap_pars_fragment:sv,clearcoat_normal_fragment_begin:rv,clearcoat_normal_fragment_maps:ov,clearcoat_pars_fragment:av,iridescence_pars_fragment:lv,opaque_fragment:cv,packing:hv,premultiplied_alpha_fragment:uv,project_vertex:dv,dithering_fragment:fv,dithering_pars_fragment:pv,roughnessmap_fragment:mv,roughnessmap_pars_fragment:gv,shadowmap_pars_fragment:_v,shadowmap_pars_vertex:xv,shadowmap_vertex:yv,shadowmask_pars_fragment:vv,skinbase_vertex:Mv,skinning_pars_vertex:Sv,skinning_vertex:bv,skinnormal_vertex:wv,specularmap_fragment:Av,specularmap_pars_fragment:Ev,tonemapping_fragment:Tv,tonemapping_pars_fragment:Rv,transmission_fragment:Cv,transmission_pars_fragment:Iv,uv_pars_fragment:Pv,uv_pars_vertex:Lv,uv_vertex:Nv,worldpos_vertex:Dv,background_vert:Uv,background_frag:Ov,backgroundCube_vert:Fv,backgroundCube_frag:Bv,cube_vert:kv,cube_frag:zv,depth_vert:Gv,depth_frag:Vv,distance_vert:Hv,distance_frag:Wv,equirect_vert:Xv,equirect_frag:$v,linedashed_vert:qv,linedashed_frag:Yv,meshbasic_vert:Zv,meshbasic_frag:Jv,meshlambert_vert:Kv,meshlambert_frag:jv,meshmatcap_vert:Qv,meshmatcap_frag:tM,meshnormal_vert:eM,meshnormal_frag:nM,meshphong_vert:iM,meshphong_frag:sM,meshphysical_vert:rM,meshphysical_frag:oM,meshtoon_vert:aM,meshtoon_frag:lM,points_vert:cM,points_frag:hM,shadow_vert:uM,shadow_frag:dM,sprite_vert:fM,sprite_frag:pM},mt={common:{diffuse:{value:new Qt(16777215)},opacity:{value:1},map:{value:null},mapTransform:{value:new Ot},alphaMap:{value:null},alphaMapTransform:{value:new Ot},alphaTest:{value:0}},specularmap:{specularMap:{value:null},specularMapTransform:{value:new Ot}},envmap:{envMap:{value:null},envMapRotation:{value:new Ot},reflectivity:{value:1},ior:{value:1.5},refractionRatio:{value:.98},dfgLUT:{value:null}},aomap:{aoMap:{value:null},aoMapIntensity:{value:1},aoMapTransform:{value:new Ot}},lightmap:{lightMap:{value:null},lightMapIntensity:{value:1},lightMapTransform:{value:new Ot}},bumpmap:{bumpMap:{value:null},bumpMapTransform:{value:new Ot},bumpScale:{value:1}},normalmap:{normalMap:{value:null},normalMapTransform:{value:new Ot},normalScale:{value:new te(1,1)}},displacementmap:{displacementMap:{value:null},displacementMapTransform:{value:new Ot},displacementScale:{value:1},displacementBias:{value:0}},emissivemap:{emissiveMap:{value:null},emissiveMapTransform:{value:new Ot}},metalnessmap:{metalnessMap:{value:null},metalnessMapTransform:{value:new Ot}},roughnessmap:{roughnessMap:{value:null},roughnessMapTransform:{value:new Ot}},gradientmap:{gradientMap:{value:null}},fog:{fogDensity:{value:25e-5},fogNear:{value:1},fogFar:{value:2e3},fogColor:{value:new Qt(16777215)}},lights:{ambientLightColor:{value:[]},lightProbe:{value:[]},sunLights:{value:[],properties:{direction:{},color:{}}},sunLightShadows:{value:[],properties:{shadowIntensity:1,shadowBias:{},shadowNormalBias:{},shadowRadius:{},shadowMapSize:{}}},sunShadowMatrix:{value:[]},sunShadowCascade:{value:[]},directionalLights:{value:[],properties:{direction:{},color:{}}},directionalLightShadows:{value:[],properties:{shadowIntensity:1,shadowBias:{},shadowNormalBias:{},shadowRadius:{},shadowMapSize:{}}},directionalShadowMatrix:{value:[]},spotLights:{value:[],properties:{color:{},position:{},direction:{},distance:{},coneCos:{},penumbraCos:{},decay:{}}},spotLightShadows:{value:[],properties:{shadowIntensity:1,shadowBias:{},shadowNormalBias:{},shadowRadius:{},shadowMapSize:{}}},spotLightMap:{value:[]},spotLightMatrix:{value:[]},pointLights:{value:[],properties:{color:{},position:{},decay:{},distance:{}}},pointLightShadows:{value:[],properties:{shadowIntensity:1,shadowBias:{},shadowNormalBias:{},shadowRadius:{},shadowMapSize:{},shadowCameraNear:{},shadowCameraFar:{}}},pointShadowMatrix:{value:[]},hemisphereLights:{value:[],properties:{direction:{},skyColor:{},groundColor:{}}},rectAreaLights:{value:[],properties:{color:{},position:{},width:{},height:{}}},ltc_1:{value:null},ltc_2:{value:null},probesSH:{value:[]},probesMin:{value:[]},probesMax:{value:[]},probesResolution:{value:[]}},points:{diffuse:{value:new Qt(16777215)},opacity:{value:1},size:{value:1},scale:{value:1},map:{value:null},alphaMap:{value:null},alphaMapTransform:{value:new Ot},alphaTest:{value:0},uvTransform:{value:new Ot}},sprite:{diffuse:{value:new Qt(16777215)},opacity:{value:1},center:{value:new te(.5,.5)},rotation:{value:0},map:{value:null},mapTransform:{value:new Ot},alphaMap:{value:null},alphaMapTransform:{value:new Ot},alphaTest:{value:0}}},Yn={basic:{uniforms:We([mt.common,mt.specularmap,mt.envmap,mt.aomap,mt.lightmap,mt.fog]),vertexShader:Wt.meshbasic_vert,fragmentShader:Wt.meshbasic_frag},lambert:{uniforms:We([mt.common,mt.specularmap,mt.envmap,mt.aomap,mt.lightmap,mt.emissivemap,mt.bumpmap,mt.normalmap,mt.displacementmap,mt.fog,mt.lights,{emissive:{value:new Qt(0)},envMapIntensity:{value:1}}]),vertexShader:Wt.meshlambert_vert,fragmentShader:Wt.meshlambert_frag},phong:{uniforms:We([mt.common,mt.specularmap,mt.envmap,mt.aomap,mt.lightmap,mt.emissivemap,mt.bumpmap,mt.normalmap,mt.displacementmap,mt.fog,mt.lights,{emissive:{value:new Qt(0)},specular:{value:new Qt(1118481)},shininess:{value:30},envMapIntensity:{value:1}}]),vertexShader:Wt.meshphong_vert,fragmentShader:Wt.meshphong_frag},standard:{uniforms:We([mt.common,mt.envmap,mt.aomap,mt.lightmap,mt.emissivemap,mt.bumpmap,mt.normalmap,mt.displacementmap,mt.roughnessmap,mt.metalnessmap,mt.fog,mt.lights,{emissive:{value:new Qt(0)},roughness:{value:1},metalness:{value:0},envMapIntensity:{value:1}}]),vertexShader:Wt.meshphysical_vert,fragmentShader:Wt.meshphysical_frag},toon:{uniforms:We([mt.common,mt.aomap,mt.lightmap,mt.emissivemap,mt.bumpmap,mt.normalmap,mt.displacementmap,mt.gradientmap,mt.fog,mt.lights,{emissive:{value:new Qt(0)}}]),vertexShader:Wt.meshtoon_vert,fragmentShader:Wt.meshtoon_frag},matcap:{uniforms:We([mt.common,mt.bumpmap,mt.normalmap,mt.displacementmap,mt.fog,{matcap:{value:null}}]),vertexShader:Wt.meshmatcap_vert,fragmentShader:Wt.meshmatcap_frag},points:{uniforms:We([mt.points,mt.fog]),vertexShader:Wt.points_vert,fragmentShader:Wt.points_frag},dashed:{uniforms:We([mt.common,mt.fog,{scale:{value:1},dashSize:{value:1},totalSize:{value:2}}]),vertexShader:Wt.linedashed_vert,fragmentShader:Wt.linedashed_frag},depth:{uniforms:We([mt.common,mt.displacementmap]),vertexShader:Wt.depth_vert,fragmentShader:Wt.depth_frag},normal:{uniforms:We([mt.common,mt.bumpmap,mt.normalmap,mt.displacementmap,{opacity:{value:1}}]),vertexShader:Wt.meshnormal_vert,fragmentShader:Wt.meshnormal_frag},sprite:{uniforms:We([mt.sprite,mt.fog]),vertexShader:Wt.sprite_vert,fragmentShader:Wt.sprite_frag},background:{uniforms:{uvTransform:{value:new Ot},t2D:{value:null},backgroundIntensity:{value:1}},vertexShader:Wt.background_vert,fragmentShader:Wt.background_frag},backgroundCube:{uniforms:{envMap:{value:null},backgroundBlurriness:{value:0},backgroundIntensity:{value:1},backgroundRotation:{value:new Ot}},vertexShader:Wt.backgroundCube_vert,fragmentShader:Wt.backgroundCube_frag},cube:{uniforms:{tCube:{value:null},tFlip:{value:-1},opacity:{value:1}},vertexShader:Wt.cube_vert,fragmentShader:Wt.cube_frag},equirect:{uniforms:{tEquirect:{value:null}},vertexShader:Wt.equirect_vert,fragmentShader:Wt.equirect_frag},distance:{uniforms:We([mt.common,mt.displacementmap,{referencePosition:{value:new V},nearDistance:{value:1},farDistance:{value:1e3}}]),vertexShader:Wt.distance_vert,fragmentShader:Wt.distance_frag},shadow:{uniforms:We([mt.lights,mt.fog,{color:{value:new Qt(0)},opacity:{value:1}}]),vertexShader:Wt.shadow_vert,fragmentShader:Wt.shadow_frag}};Yn.physical={uniforms:We([Yn.standard.uniforms,{clearcoat:{value:0},clearcoatMap:{value:null},clearcoatMapTransform:{value:new Ot},clearcoatNormalMap:{value:null},clearcoatNormalMapTransform:{value:new Ot},clearcoatNormalScale:{value:new te(1,1)},clearcoatRoughness:{value:0},clearcoatRoughnessMap:{value:null},clearcoatRoughnessMapTransform:{value:new Ot},diffuseRoughness:{value:0},diffuseRoughnessMap:{value:null},diffuseRoughnessMapTransform:{value:new Ot},dispersion:{value:0},retroreflectivity:{value:0},iridescence:{value:0},iridescenceMap:{value:null},iridescenceMapTransform:{value:new Ot},iridescenceIOR:{value:1.3},iridescenceThicknessMinimum:{value:100},iridescenceThicknessMaximum:{value:400},iridescenceThicknessMap:{value:null},iridescenceThicknessMapTransform:{value:new Ot},sheen:{value:0},sheenColor:{value:new Qt(0)},sheenColorMap:{value:null},sheenColorMapTransform:{value:new Ot},sheenRoughness:{value:1},sheenRoughnessMap:{value:null},sheenRoughnessMapTransform:{value:new Ot},transmission:{value:0},transmissionMap:{value:null},transmissionMapTransform:{value:new Ot},transmissionSamplerSize:{value:new te},transmissionSamplerMap:{value:null},thickness:{value:0},thicknessMap:{value:null},thicknessMapTransform:{value:new Ot},attenuationDistance:{value:0},attenuationColor:{value:new Qt(0)},specularColor:{value:new Qt(1,1,1)},specularColorMap:{value:null},specularColorMapTransform:{value:new Ot},specularIntensity:{value:1},specularIntensityMap:{value:null},specularIntensityMapTransform:{value:new Ot},anisotropyVector:{value:new te},anisotropyMap:{value:null},anisotropyMapTransform:{value:new Ot}}]),vertexShader:Wt.meshphysical_vert,fragmentShader:Wt.meshphysical_frag};var gl={r:0,b:0,g:0},mM=new ge,Ym=new Ot;Ym.set(-1,0,0,0,1,0,0,0,1);function gM(i,t,e,n,s,r){let o=new Qt(0),a=s===!0?0:1,l,c,h=null,d=0,u=null;function f(M){let I=M.isScene===!0?M.background:null;if(I&&I.isTexture){let w=M.backgroundBlurriness>0;I=t.get(I,w)}return I}function m(M){let I=!1,w=f(M);w===null?p(o,a):w&&w.isColor&&(p(w,1),I=!0);let C=i.xr.getEnvironmentBlendMode();C==="additive"?e.buffers.color.setClear(0,0,0,1,r):C==="alpha-blend"&&e.buffers.color.setClear(0,0,0,0,r),(i.autoClear||I)&&(e.buffers.depth.setTest(!0),e.buffers.depth.setMask(!0),e.buffers.color.setMask(!0),i.clear(i.autoClearColor,i.autoClearDepth,i.autoClearStencil))}function v(M,I){let w=f(I);w&&w.isCubeTexture?(c===void 0&&(c=new Sn(new Is(1,1,1),new Wn({name:"BackgroundCubeMaterial",uniforms:Zi(Yn.backgroundCube.uniforms),vertexShader:Yn.backgroundCube.vertexShader,fragmentShader:Yn.backgroundCube.fragmentShader,side:Ke,depthTest:!1,depthWrite:!1,fog:!1,allowOverride:!1})),c.geometry.deleteAttribute("normal"),c.geometry.deleteAttribute("uv"),c.onBeforeRender=function(C,T,_){this.matrixWorld.copyPosition(_.matrixWorld)},Object.defineProperty(c.material,"envMap",{get:function(){return this.uniforms.envMap.value}}),n.update(c)),c.material.uniforms.envMap.value=w,c.material.uniforms.backgroundBlurriness.value=I.backgroundBlurriness,c.material.uniforms.backgroundIntensity.value=I.backgroundIntensity,c.material.uniforms.backgroundRotation.value.setFromMatrix4(mM.makeRotationFromEuler(I.backgroundRotation)).transpose(),w.isRenderTargetTexture===!1&&c.material.uniforms.backgroundRotation.value.premultiply(Ym),c.material.toneMapped=Zt.getTransfer(w.colorSpace)!==ne,(h!==w||d!==w.version||u!==i.toneMapping)&&(c.material.needsUpdate=!0,h=w,d=w.version,u=i.toneMapping),c.layers.enableAll(),M.unshift(c,c.geometry,c.material,0,0,null)):w&&w.isTexture&&(l===void 0&&(l=new Sn(new Ar(2,2),new Wn({name:"BackgroundMaterial",uniforms:Zi(Yn.background.uniforms),vertexShader:Yn.background.vertexShader,fragmentShader:Yn.background.fragmentShader,side:Xn,depthTest:!1,depthWrite:!1,fog:!1,allowOverride:!1})),l.geometry.deleteAttribute("normal"),Object.defineProperty(l.material,"map",{get:function(){return this.uniforms.t2D.value}}),n.update(l)),l.material.uniforms.t2D.value=w,l.material.uniforms.backgroundIntensity.value=I.backgroundIntensity,l.material.toneMapped=Zt.getTransfer(w.colorSpace)!==ne,w.matrixAutoUpdate===!0&&w.updateMatrix(),l.material.uniforms.uvTransform.value.copy(w.matrix),(h!==w||d!==w.version||u!==i.toneMapping)&&(l.material.needsUpdate=!0,h=w,d=w.version,u=i.toneMapping),l.layers.enableAll(),M.unshift(l,l.geometry,l.material,0,0,null))}function p(M,I){M.getRGB(gl,Uh(i)),e.buffers.color.setClear(gl.r,gl.g,gl.b,I,r)}function g(){c!==void 0&&(c.geometry.dispose(),c.material.dispose(),c=void 0),l!==void 0&&(l.geometry.dispose(),l.material.dispose(),l=void 0)}return{getClearColor:function(){return o},setClearColor:function(M,I=1){o.set(M),a=I,p(o,a)},getClearAlpha:function(){return a},setClearAlpha:function(M){a=M,p(o,a)},render:m,addToRenderList:v,dispose:g}}function _M(i,t){let e=i.getParameter(i.MAX_VERTEX_ATTRIBS),n={},s=u(null),r=s,o=!1;function a(U,z,Y,L,$){let j=!1,H=d(U,L,Y,z);r!==H&&(r=H,c(r.object)),j=f(U,L,Y,$),j&&m(U,L,Y,$),$!==null&&t.update($,i.ELEMENT_ARRAY_BUFFER),(j||o)&&(o=!1,w(U,z,Y,L),$!==null&&i.bindBuffer(i.ELEMENT_ARRAY_BUFFER,t.get($).buffer))}function l(){return i.createVertexArray()}function c(U){return i.bindVertexArray(U)}function h(U){return i.deleteVertexArray(U)}function d(U,z,Y,L){let $=L.wireframe===!0,j=n[z.id];j===void 0&&(j={},n[z.id]=j);let H=U.isInstancedMesh===!0?U.id:0,it=j[H];it===void 0&&(it={},j[H]=it);let X=it[Y.id];X===void 0&&(X={},it[Y.id]=X);let tt=X[$];return tt===void 0&&(tt=u(l()),X[$]=tt),tt}function u(U){let z=[],Y=[],L=[];for(let $=0;$<e;$++)z[$]=0,Y[$]=0,L[$]=0;return{geometry:null,program:null,wireframe:!1,newAttributes:z,enabledAttributes:Y,attributeDivisors:L,object:U,attributes:{},index:null}}function f(U,z,Y,L){let $=r.attributes,j=z.attributes,H=0,it=Y.getAttributes();for(let X in it)if(it[X].location>=0){let et=$[X],bt=j[X];if(bt===void 0&&(X==="instanceMatrix"&&U.instanceMatrix&&(bt=U.instanceMatrix),X==="instanceColor"&&U.instanceColor&&(bt=U.instanceColor)),et===void 0||et.attribute!==bt||bt&&et.data!==bt.data)return!0;H++}return r.attributesNum!==H||r.index!==L}function m(U,z,Y,L){let $={},j=z.attributes,H=0,it=Y.getAttributes();for(let X in it)if(it[X].location>=0){let et=j[X];et===void 0&&(X==="instanceMatrix"&&U.instanceMatrix&&(et=U.instanceMatrix),X==="instanceColor"&&U.instanceColor&&(et=U.instanceColor));let bt={};bt.attribute=et,et&&et.data&&(bt.data=et.data),$[X]=bt,H++}r.attributes=$,r.attributesNum=H,r.index=L}function v(){let U=r.newAttributes;for(let z=0,Y=U.length;z<Y;z++)U[z]=0}function p(U){g(U,0)}function g(U,z){let Y=r.newAttributes,L=r.enabledAttributes,$=r.attributeDivisors;Y[U]=1,L[U]===0&&(i.enableVertexAttribArray(U),L[U]=1),$[U]!==z&&(i.vertexAttribDivisor(U,z),$[U]=z)}function M(){let U=r.newAttributes,z=r.enabledAttributes;for(let Y=0,L=z.length;Y<L;Y++)z[Y]!==U[Y]&&(i.disableVertexAttribArray(Y),z[Y]=0)}function I(U,z,Y,L,$,j,H){H===!0?i.vertexAttribIPointer(U,z,Y,$,j):i.vertexAttribPointer(U,z,Y,L,$,j)}function w(U,z,Y,L){v();let $=L.attributes,j=Y.getAttributes(),H=z.defaultAttributeValues;for(let it in j){let X=j[it];if(X.location>=0){let tt=$[it];if(tt===void 0&&(it==="instanceMatrix"&&U.instanceMatrix&&(tt=U.instanceMatrix),it==="instanceColor"&&U.instanceColor&&(tt=U.instanceColor)),tt!==void 0){let et=tt.normalized,bt=tt.itemSize,Bt=t.get(tt);if(Bt===void 0)continue;let J=Bt.buffer,gt=Bt.type,vt=Bt.bytesPerElement,Ct=gt===i.INT||gt===i.UNSIGNED_INT||tt.gpuType===Da;if(tt.isInterleavedBufferAttribute){let _t=tt.data,Gt=_t.isInterleavedBuffer===!0?_t.stride:_t.itemSize,xe=tt.offset;if(_t.isInstancedInterleavedBuffer||_t.isInstancedBufferAttribute){for(let Lt=0;Lt<X.locationSize;Lt++)g(X.location+Lt,_t.meshPerAttribute);U.isInstancedMesh!==!0&&L._maxInstanceCount===void 0&&(L._maxInstanceCount=_t.meshPerAttribute*_t.count)}else for(let Lt=0;Lt<X.locationSize;Lt++)p(X.location+Lt);i.bindBuffer(i.ARRAY_BUFFER,J);for(let Lt=0;Lt<X.locationSize;Lt++)I(X.location+Lt,bt/X.locationSize,gt,et,Gt*vt,(xe+bt/X.locationSize*Lt)*vt,Ct)}else{if(tt.isInstancedBufferAttribute){for(let _t=0;_t<X.locationSize;_t++)g(X.location+_t,tt.meshPerAttribute);U.isInstancedMesh!==!0&&L._maxInstanceCount===void 0&&(L._maxInstanceCount=tt.meshPerAttribute*tt.count)}else for(let _t=0;_t<X.locationSize;_t++)p(X.location+_t);i.bindBuffer(i.ARRAY_BUFFER,J);for(let _t=0;_t<X.locationSize;_t++)I(X.location+_t,bt/X.locationSize,gt,et,bt*vt,bt/X.locationSize*_t*vt,Ct)}}else if(H!==void 0){let et=H[it];if(et!==void 0)switch(et.length){case 2:i.vertexAttrib2fv(X.location,et);break;case 3:i.vertexAttrib3fv(X.location,et);break;case 4:i.vertexAttrib4fv(X.location,et);break;default:i.vertexAttrib1fv(X.location,et)}}}}M()}function C(){k();for(let U in n){let z=n[U];for(let Y in z){let L=z[Y];for(let $ in L){let j=L[$];for(let H in j)h(j[H].object),delete j[H];delete L[$]}}delete n[U]}}function T(U){if(n[U.id]===void 0)return;let z=n[U.id];for(let Y in z){let L=z[Y];for(let $ in L){let j=L[$];for(let H in j)h(j[H].object),delete j[H];delete L[$]}}delete n[U.id]}function _(U){for(let z in n){let Y=n[z];for(let L in Y){let $=Y[L];if($[U.id]===void 0)continue;let j=$[U.id];for(let H in j)h(j[H].object),delete j[H];delete $[U.id]}}}function b(U){for(let z in n){let Y=n[z],L=U.isInstancedMesh===!0?U.id:0,$=Y[L];if($!==void 0){for(let j in $){let H=$[j];for(let it in H)h(H[it].object),delete H[it];delete $[j]}delete Y[L],Object.keys(Y).length===0&&delete n[z]}}}function k(){N(),o=!0,r!==s&&(r=s,c(r.object))}function N(){s.geometry=null,s.program=null,s.wireframe=!1}return{setup:a,reset:k,resetDefaultState:N,dispose:C,releaseStatesOfGeometry:T,releaseStatesOfObject:b,releaseStatesOfProgram:_,initAttributes:v,enableAttribute:p,disableUnusedAttributes:M}}function xM(i,t,e){let n;function s(l){n=l}function r(l,c){i.drawArrays(n,l,c),e.update(c,n,1)}function o(l,c,h){h!==0&&(i.drawArraysInstanced(n,l,c,h),e.update(c,n,h))}function a(l,c,h){if(h===0)return;t.get("WEBGL_multi_draw").multiDrawArraysWEBGL(n,l,0,c,0,h);let u=0;for(let f=0;f<h;f++)u+=c[f];e.update(u,n,1)}this.setMode=s,this.render=r,this.renderInstances=o,this.renderMultiDraw=a}function yM(i,t,e,n){let s;function r(){if(s!==void 0)return s;if(t.has("EXT_texture_filter_anisotropic")===!0){let _=t.get("EXT_texture_filter_anisotropic");s=i.getParameter(_.MAX_TEXTURE_MAX_ANISOTROPY_EXT)}else s=0;return s}function o(_){return!(_!==cn&&n.convert(_)!==i.getParameter(i.IMPLEMENTATION_COLOR_READ_FORMAT))}function a(_){let b=_===On&&(t.has("EXT_color_buffer_half_float")||t.has("EXT_color_buffer_float"));return!(_!==ln&&_!==Un&&!b&&n.convert(_)!==i.getParameter(i.IMPLEMENTATION_COLOR_READ_TYPE))}function l(_){if(_==="highp"){if(i.getShaderPrecisionFormat(i.VERTEX_SHADER,i.HIGH_FLOAT).precision>0&&i.getShaderPrecisionFormat(i.FRAGMENT_SHADER,i.HIGH_FLOAT).precision>0)return"highp";_="mediump"}return _==="mediump"&&i.getShaderPrecisionFormat(i.VERTEX_SHADER,i.MEDIUM_FLOAT).precision>0&&i.getShaderPrecisionFormat(i.FRAGMENT_SHADER,i.MEDIUM_FLOAT).precision>0?"mediump":"lowp"}let c=e.precision!==void 0?e.precision:"highp",h=l(c);h!==c&&(Nt("WebGLRenderer:",c,"not supported, using",h,"instead."),c=h);let d=e.reversedDepthBuffer===!0&&t.has("EXT_clip_control"),u=e.logarithmicDepthBuffer===!0&&d===!1;e.reversedDepthBuffer===!0&&d===!1&&Nt("WebGLRenderer: Unable to use reversed depth buffer due to missing EXT_clip_control extension. Fallback to default depth buffer."),e.logarithmicDepthBuffer===!0&&d===!0&&Nt("WebGLRenderer: Logarithmic depth buffer is ignored when reversed depth buffer is enabled.");let f=i.getParameter(i.MAX_TEXTURE_IMAGE_UNITS),m=i.getParameter(i.MAX_VERTEX_TEXTURE_IMAGE_UNITS),v=i.getParameter(i.MAX_TEXTURE_SIZE),p=i.getParameter(i.MAX_CUBE_MAP_TEXTURE_SIZE),g=i.getParameter(i.MAX_VERTEX_ATTRIBS),M=i.getParameter(i.MAX_VERTEX_UNIFORM_VECTORS),I=i.getParameter(i.MAX_VARYING_VECTORS),w=i.getParameter(i.MAX_FRAGMENT_UNIFORM_VECTORS),C=i.getParameter(i.MAX_SAMPLES),T=i.getParameter(i.SAMPLES);return{isWebGL2:!0,getMaxAnisotropy:r,getMaxPrecision:l,textureFormatReadable:o,textureTypeReadable:a,precision:c,logarithmicDepthBuffer:u,reversedDepthBuffer:d,maxTextures:f,maxVertexTextures:m,maxTextureSize:v,maxCubemapSize:p,maxAttributes:g,maxVertexUniforms:M,maxVaryings:I,maxFragmentUniforms:w,maxSamples:C,samples:T}}function vM(i){let t=this,e=null,n=0,s=!1,r=!1,o=new Ln,a=new Ot,l={value:null,needsUpdate:!1};this.uniform=l,this.numPlanes=0,this.numIntersection=0,this.init=function(d,u){let f=d.length!==0||u||n!==0||s;return s=u,n=d.length,f},this.beginShadows=function(){r=!0,h(null)},this.endShadows=function(){r=!1},this.setGlobalState=function(d,u){e=h(d,u,0)},this.setState=function(d,u,f){let m=d.clippingPlanes,v=d.clipIntersection,p=d.clipShadows,g=i.get(d);if(!s||m===null||m.length===0||r&&!p)r?h(null):c();else{let M=r?0:n,I=M*4,w=g.clippingState||null;l.value=w,w=h(m,u,I,f);for(let C=0;C!==I;++C)w[C]=e[C];g.clippingState=w,this.numIntersection=v?this.numPlanes:0,this.numPlanes+=M}};function c(){l.value!==e&&(l.value=e,l.needsUpdate=n>0),t.numPlanes=n,t.numIntersection=0}function h(d,u,f,m){let v=d!==null?d.length:0,p=null;if(v!==0){if(p=l.value,m!==!0||p===null){let g=f+v*4,M=u.matrixWorldInverse;a.getNormalMatrix(M),(p===null||p.length<g)&&(p=new Float32Array(g));for(let I=0,w=f;I!==v;++I,w+=4)o.copy(d[I]).applyMatrix4(M,a),o.normal.toArray(p,w),p[w+3]=o.constant}l.value=p,l.needsUpdate=!0}return t.numPlanes=v,t.numIntersection=0,p}}var zr=class extends on{constructor(t=1,e={}){super(t,t,e),this.isWebGLCubeRenderTarget=!0;let n={width:t,height:t,depth:1},s=[n,n,n,n,n,n];this.texture=new Sr(s),this._setTextureOptions(e),this.texture.isRenderTargetTexture=!0}fromEquirectangularTexture(t,e){this.texture.type=e.type,this.texture.colorSpace=e.colorSpace,this.texture.generateMipmaps=e.generateMipmaps,this.texture.minFilter=e.minFilter,this.texture.magFilter=e.magFilter;let n={uniforms:{tEquirect:{value:null}},vertexShader:`

				varying vec3 vWorldDirection;

				vec3 transformDirection( in vec3 dir, in mat4 matrix ) {

					return normalize( ( matrix * vec4( dir, 0.0 ) ).xyz );

				}

				void main() {

					vWorldDirection = transformDirection( position, modelMatrix );

					#include <begin_vertex>
					#include <project_vertex>

				}
			`,fragmentShader:`

				uniform sampler2D tEquirect;

				varying vec3 vWorldDirection;

				#include <common>

				void main() {

					vec3 direction = normalize( vWorldDirection );

					vec2 sampleUV = equirectUv( direction );

					gl_FragColor = texture2D( tEquirect, sampleUV );

				}
			`},s=new Is(5,5,5),r=new Wn({name:"CubemapFromEquirect",uniforms:Zi(n.uniforms),vertexShader:n.vertexShader,fragmentShader:n.fragmentShader,side:Ke,blending:Xi});r.uniforms.tEquirect.value=e;let o=new Sn(s,r),a=e.minFilter;return e.minFilter===li&&(e.minFilter=De),new Ns(1,10,this).update(t,o),e.minFilter=a,o.geometry.dispose(),o.material.dispose(),this}clear(t,e=!0,n=!0,s=!0){let r=t.getRenderTarget();for(let o=0;o<6;o++)t.setRenderTarget(this,o),t.clear(e,n,s);t.setRenderTarget(r)}},Em=256,MM=3,SM=20,Zm=256,Jm=16,bM=3,wM=new V,AM=new Qt,xl=class i{constructor(t){this._renderer=t,this._cubeSize=0,this._sourceTarget=null,this._cubeCamera=new Ns(1,10,null),this._boxMesh=new Sn(new Is(5,5,5),null),this._cubemapMaterial=null,this._equirectMaterial=null,this._blurMaterial=null,this._ggxMaterial=null,this._integrationMaterial=null}fromScene(t,e=0,n=.1,s=100,r={}){let{size:o=256,position:a=wM}=r,l=this._renderer;this._setSize(o);let c=this._allocateTarget(),h=this._getSourceTarget(!0);e>0&&(h.texture.mipmapsAutoUpdate=!1);let d=l.autoClear,u=l.autoClearColor,f=l.autoClearDepth,m=l.autoClearStencil,v=t.background;l.autoClear=!0,l.autoClearColor=!0,l.autoClearDepth=!0,l.autoClearStencil=!0,v===null&&(t.background=l.getClearColor(AM));let p=new Ns(n,s,h);return p.position.copy(a),p.update(l,t),l.autoClear=d,l.autoClearColor=u,l.autoClearDepth=f,l.autoClearStencil=m,t.background=v,e>0&&(h.texture.mipmapsAutoUpdate=!0,this._blur(c,e)),this._applyPMREM(c),c}fromEquirectangular(t,e=null){return this._fromTexture(t,e)}fromCubemap(t,e=null){return this._fromTexture(t,e)}compileCubemapShader(){this._cubemapMaterial===null&&(this._cubemapMaterial=Cm(),this._compileMaterial(this._cubemapMaterial))}compileEquirectangularShader(){this._equirectMaterial===null&&(this._equirectMaterial=Rm(),this._compileMaterial(this._equirectMaterial))}dispose(){this._sourceTarget!==null&&this._sourceTarget.dispose(),this._cubemapMaterial!==null&&this._cubemapMaterial.dispose(),this._equirectMaterial!==null&&this._equirectMaterial.dispose(),this._blurMaterial!==null&&this._blurMaterial.dispose(),this._ggxMaterial!==null&&this._ggxMaterial.dispose(),this._integrationMaterial!==null&&this._integrationMaterial.dispose(),this._boxMesh.geometry.dispose()}static lodToRoughness(t,e){return e>0?1-Math.sqrt(1-t/e):0}_setSize(t){this._cubeSize=Math.max(Em,Mm(t))}_fromTexture(t,e){t.mapping===qi||t.mapping===Os?this._setSize(t.image.length===0?Em:t.image[0].width||t.image[0].image.width):this._setSize(t.image.width/4);let n=e||this._allocateTarget();return this._textureToCubemap(t),this._applyPMREM(n),n}_allocateTarget(){let t=this._cubeSize,e=Tm(t,!1,!1),n=Math.log2(t)-MM;for(let s=0;s<=n;s++)e.texture.mipmaps.push({width:t>>s,height:t>>s});return e.texture.name="PMREM",e.texture.isPMREMTexture=!0,e}_getSourceTarget(t=!1){let e=this._cubeSize,n=this._sourceTarget;return(n===null||n.width!==e||t&&n.depthBuffer===!1)&&(n!==null&&n.dispose(),this._sourceTarget=Tm(e,!0,t)),this._sourceTarget}_compileMaterial(t){this._boxMesh.material=t,this._renderer.compile(this._boxMesh,this._cubeCamera.children[0])}_renderCube(t,e,n){let s=this._boxMesh,r=this._cubeCamera;s.material=n,r.renderTarget=t,r.activeMipmapLevel=e;let o=t.width>>e;t.viewport.set(0,0,o,o),r.update(this._renderer,s),t.viewport.set(0,0,t.width,t.height)}_textureToCubemap(t){let e;t.mapping===qi||t.mapping===Os?(this._cubemapMaterial===null&&(this._cubemapMaterial=Cm()),e=this._cubemapMaterial,e.uniforms.flipEnvMap.value=t.isRenderTargetTexture===!1?-1:1):(this._equirectMaterial===null&&(this._equirectMaterial=Rm()),e=this._equirectMaterial),e.uniforms.envMap.value=t,this._renderCube(this._getSourceTarget(),0,e)}_applyPMREM(t){this._ggxMaterial===null&&(this._ggxMaterial=EM(),this._integrationMaterial=TM());let e=this._cubeSize,n=t.texture.mipmaps.length-1,s=this._ggxMaterial.uniforms;s.envMap.value=this._sourceTarget.texture;let r=this._integrationMaterial.uniforms;r.envMap.value=this._sourceTarget.texture,r.sourceLod.value=Math.log2(e/Jm);for(let o=0;o<=n;o++){let a=i.lodToRoughness(o,n);if(o>n-bM)r.roughness.value=a,this._renderCube(t,o,this._integrationMaterial);else{let l=a>0?Math.log2(e)+.5*Math.log2(6/(Zm*Math.pow(a,4)))+.5:0;s.roughness.value=a,s.lodBias.value=l,this._renderCube(t,o,this._ggxMaterial)}}}_blur(t,e){this._blurMaterial===null&&(this._blurMaterial=RM());let n=this._blurMaterial,s=n.uniforms,r=this._sourceTarget;s.sigma.value=Math.min(e,Math.PI)/Math.SQRT2,s.envMap.value=r.texture,this._renderCube(t,0,n),s.envMap.value=t.texture,this._renderCube(r,0,n)}};function Tm(i,t,e){return new zr(i,{minFilter:li,generateMipmaps:t,type:On,colorSpace:fr,depthBuffer:e})}function Gr(i,t,e){return new Wn({name:i,uniforms:t,vertexShader:Wt.cube_vert,fragmentShader:e,side:Ke,blending:Xi,depthTest:!1,depthWrite:!1})}function EM(){return Gr("PMREMGGXConvolution",{envMap:{value:null},roughness:{value:0},lodBias:{value:0}},`

		#define GGX_SAMPLES ${Zm}u

		varying vec3 vWorldDirection;

		uniform samplerCube envMap;
		uniform float roughness;
		uniform float lodBias;

		#include <common>

		// Van der Corput radical inverse
		float radicalInverse_VdC( uint bits ) {

			bits = ( bits << 16u ) | ( bits >> 16u );
			bits = ( ( bits & 0x55555555u ) << 1u ) | ( ( bits & 0xAAAAAAAAu ) >> 1u );
			bits = ( ( bits & 0x33333333u ) << 2u ) | ( ( bits & 0xCCCCCCCCu ) >> 2u );
			bits = ( ( bits & 0x0F0F0F0Fu ) << 4u ) | ( ( bits & 0xF0F0F0F0u ) >> 4u );
			bits = ( ( bits & 0x00FF00FFu ) << 8u ) | ( ( bits & 0xFF00FF00u ) >> 8u );
			return float( bits ) * 2.3283064365386963e-10; // / 0x100000000

		}

		// Hammersley sequence
		vec2 hammersley( uint i, uint N ) {

			return vec2( float( i ) / float( N ), radicalInverse_VdC( i ) );

		}

		void main() {

			vec3 N = normalize( vWorldDirection );

			// For very low roughness, just sample the environment directly
			if ( roughness < 0.001 ) {

				gl_FragColor = vec4( textureLod( envMap, N, 0.0 ).rgb, 1.0 );
				return;

			}

			float alpha = roughness * roughness;
			float alpha2 = alpha * alpha;

			// Tangent space basis for VNDF sampling
			vec3 up = abs( N.z ) < 0.999 ? vec3( 0.0, 0.0, 1.0 ) : vec3( 1.0, 0.0, 0.0 );
			vec3 tangent = normalize( cross( up, N ) );
			vec3 bitangent = cross( N, tangent );

			vec3 prefilteredColor = vec3( 0.0 );
			float totalWeight = 0.0;

			for ( uint i = 0u; i < GGX_SAMPLES; i ++ ) {

				vec2 Xi = hammersley( i, GGX_SAMPLES );

				// With V = N, sample the reflected direction directly.
				float invQ = 1.0 / ( 1.0 - Xi.x + alpha2 * Xi.x );
				float NdotL = ( 1.0 - Xi.x - alpha2 * Xi.x ) * invQ;

				if ( NdotL > 0.0 ) {

					float phi = 2.0 * PI * Xi.y;
					float sinTheta = 2.0 * alpha * sqrt( Xi.x * ( 1.0 - Xi.x ) ) * invQ;
					vec3 L = N * NdotL + ( tangent * cos( phi ) + bitangent * sin( phi ) ) * sinTheta;

					// Match the source mip to the sample's solid angle. The terms
					// independent of the sample are precomputed in lodBias.
					float d = alpha2 * invQ;
					float lod = max( log2( d ) + lodBias, 0.0 );

					// Weight by NdotL for the split-sum approximation
					prefilteredColor += textureLod( envMap, L, lod ).rgb * NdotL;
					totalWeight += NdotL;

				}

			}

			gl_FragColor = vec4( prefilteredColor / totalWeight, 1.0 );

		}
	`)}function TM(){return Gr("PMREMGGXIntegration",{envMap:{value:null},roughness:{value:0},sourceLod:{value:0},sourceSize:{value:Jm}},`

		varying vec3 vWorldDirection;

		uniform samplerCube envMap;
		uniform float roughness;
		uniform float sourceLod;
		uniform int sourceSize;

		void main() {

			vec3 N = normalize( vWorldDirection );

			float alpha = roughness * roughness;
			float alpha2 = alpha * alpha;

			float texelSize = 2.0 / float( sourceSize );

			vec3 prefilteredColor = vec3( 0.0 );
			float totalWeight = 0.0;

			// Pair opposite texels: only the one in N's hemisphere contributes.
			for ( int face = 0; face < 3; face ++ ) {

				for ( int y = 0; y < sourceSize; y ++ ) {

					for ( int x = 0; x < sourceSize; x ++ ) {

						vec2 uv = ( vec2( x, y ) + 0.5 ) * texelSize - 1.0;
						vec3 texelDirection = face == 0 ? vec3( 1.0, uv ) : ( face == 1 ? vec3( uv.x, 1.0, uv.y ) : vec3( uv, 1.0 ) );

						float invDistance = inversesqrt( 1.0 + dot( uv, uv ) );
						float NdotL = dot( N, texelDirection );
						texelDirection *= NdotL < 0.0 ? - 1.0 : 1.0;
						NdotL = abs( NdotL ) * invDistance;

						// With V = N, NdotH squared is ( 1 + NdotL ) / 2. Common factors
						// in the GGX distribution and texel solid angle cancel when normalized.
						float d = 1.0 + alpha2 + ( alpha2 - 1.0 ) * NdotL;
						float weight = NdotL * invDistance * invDistance * invDistance / ( d * d );

						prefilteredColor += textureLod( envMap, texelDirection, sourceLod ).rgb * weight;
						totalWeight += weight;

					}

				}

			}

			gl_FragColor = vec4( prefilteredColor / totalWeight, 1.0 );

		}
	`)}function RM(){return Gr("PMREMSphericalGaussianBlur",{envMap:{value:null},sigma:{value:0}},`

		#define SAMPLES ${SM}
		#define GOLDEN_ANGLE 2.39996322973

		varying vec3 vWorldDirection;

		uniform samplerCube envMap;
		uniform float sigma;

		#include <common>

		void main() {

			vec3 outputDirection = normalize( vWorldDirection );

			vec3 up = abs( outputDirection.z ) < 0.999 ? vec3( 0.0, 0.0, 1.0 ) : vec3( 1.0, 0.0, 0.0 );
			vec3 tangent = normalize( cross( up, outputDirection ) );
			vec3 bitangent = cross( outputDirection, tangent );

			// Truncate the kernel at three standard deviations or at the antipode.
			float thetaMax = min( 3.0 * sigma, PI );
			float truncation = 1.0 - exp( - 0.5 * thetaMax * thetaMax / ( sigma * sigma ) );

			vec3 accumColor = vec3( 0.0 );
			float accumWeight = 0.0;

			for ( int i = 0; i < SAMPLES; i ++ ) {

				// Stratified inverse-CDF sampling of the Gaussian, placed on a golden-angle spiral.
				float stratum = ( float( i ) + 0.5 ) / float( SAMPLES );
				float theta = sigma * sqrt( - 2.0 * log( 1.0 - stratum * truncation ) );
				float phi = float( i ) * GOLDEN_ANGLE;

				vec3 offset = cos( phi ) * tangent + sin( phi ) * bitangent;
				vec3 sampleDirection = cos( theta ) * outputDirection + sin( theta ) * offset;

				// Correct the planar sample density to solid angle.
				float weight = sin( theta ) / theta;

				accumColor += weight * textureLod( envMap, sampleDirection, 0.0 ).rgb;
				accumWeight += weight;

			}

			gl_FragColor = vec4( accumColor / accumWeight, 1.0 );

		}
	`)}function Rm(){return Gr("PMREMEquirectangularToCubemap",{envMap:{value:null}},`

		varying vec3 vWorldDirection;

		uniform sampler2D envMap;

		#include <common>

		void main() {

			// Average four subpixel samples to preserve small, bright features.
			vec3 direction = normalize( vWorldDirection );
			vec3 dx = dFdx( direction ) * 0.25;
			vec3 dy = dFdy( direction ) * 0.25;

			vec3 color = textureLod( envMap, equirectUv( normalize( direction - dx - dy ) ), 0.0 ).rgb;
			color += textureLod( envMap, equirectUv( normalize( direction + dx - dy ) ), 0.0 ).rgb;
			color += textureLod( envMap, equirectUv( normalize( direction - dx + dy ) ), 0.0 ).rgb;
			color += textureLod( envMap, equirectUv( normalize( direction + dx + dy ) ), 0.0 ).rgb;
			gl_FragColor = vec4( color * 0.25, 1.0 );

		}
	`)}function Cm(){return Gr("PMREMCubemapToCubemap",{envMap:{value:null},flipEnvMap:{value:-1}},`

		varying vec3 vWorldDirection;

		uniform samplerCube envMap;
		uniform float flipEnvMap;

		void main() {

			gl_FragColor = vec4( textureCube( envMap, vec3( flipEnvMap * vWorldDirection.x, vWorldDirection.yz ) ).rgb, 1.0 );

		}
	`)}function CM(i){let t=new WeakMap,e=new WeakMap,n=null;function s(u,f=!1){return u==null?null:f?o(u):r(u)}function r(u){if(u&&u.isTexture){let f=u.mapping;if(f===Pa||f===La)if(t.has(u)){let m=t.get(u).texture;return a(m,u.mapping)}else{let m=u.image;if(m&&m.height>0){let v=new zr(m.height);return v.fromEquirectangularTexture(i,u),t.set(u,v),u.addEventListener("dispose",c),a(v.texture,u.mapping)}else return null}}return u}function o(u){if(u&&u.isTexture&&u.isPMREMTexture!==!0){let f=u.mapping,m=f===Pa||f===La,v=f===qi||f===Os;if(m||v){let p=e.get(u),g=p!==void 0?p.texture.pmremVersion:0;if(u.isRenderTargetTexture&&u.pmremVersion!==g)return n===null&&(n=new xl(i)),p=m?n.fromEquirectangular(u,p):n.fromCubemap(u,p),p.texture.pmremVersion=u.pmremVersion,e.set(u,p),p.texture;if(p!==void 0)return p.texture;{let M=u.image;return m&&M&&M.height>0||v&&M&&l(M)?(n===null&&(n=new xl(i)),p=m?n.fromEquirectangular(u):n.fromCubemap(u),p.texture.pmremVersion=u.pmremVersion,e.set(u,p),u.addEventListener("dispose",h),p.texture):null}}}return u}function a(u,f){return f===Pa?u.mapping=qi:f===La&&(u.mapping=Os),u}function l(u){let f=0,m=6;for(let v=0;v<m;v++)u[v]!==void 0&&f++;return f===m}function c(u){let f=u.target;f.removeEventListener("dispose",c);let m=t.get(f);m!==void 0&&(t.delete(f),m.dispose())}function h(u){let f=u.target;f.removeEventListener("dispose",h);let m=e.get(f);m!==void 0&&(e.delete(f),m.dispose())}function d(){t=new WeakMap,e=new WeakMap,n!==null&&(n.dispose(),n=null)}return{get:s,dispose:d}}function IM(i){let t={};function e(n){if(t[n]!==void 0)return t[n];let s=i.getExtension(n);return t[n]=s,s}return{has:function(n){return e(n)!==null},init:function(){e("EXT_color_buffer_float"),e("WEBGL_clip_cull_distance"),e("OES_texture_float_linear"),e("EXT_color_buffer_half_float"),e("WEBGL_multisampled_render_to_texture"),e("WEBGL_render_shared_exponent")},get:function(n){let s=e(n);return s===null&&ur("WebGLRenderer: "+n+" extension not supported."),s}}}function PM(i,t,e,n){let s={},r=new WeakMap,o=new FinalizationRegistry(m=>delete s[m]);function a(m){l(m.target)}function l(m){m.index!==null&&t.remove(m.index);for(let p in m.attributes)t.remove(m.attributes[p]);m.removeEventListener("dispose",a),delete s[m.id],o.unregister(m);let v=r.get(m);v&&(t.remove(v),r.delete(m)),n.releaseStatesOfGeometry(m),m.isInstancedBufferGeometry===!0&&delete m._maxInstanceCount,e.memory.geometries--}function c(m,v){return s[v.id]!==void 0||(v.addEventListener("dispose",a),s[v.id]=new WeakRef(v),o.register(v,v.id,v),e.memory.geometries++),v}function h(m){let v=m.attributes;for(let p in v)t.update(v[p],i.ARRAY_BUFFER)}function d(m){let v=m.index,p=m.attributes.position,g=0;if(p===void 0)return;let M=v!==null?v.array.length:p.array.length/3-1,I=p.count>=65535?Mr:vr,w=new I(Math.ceil(M/3)*6,1),C=w.array;if(v!==null){let _=v.array;g=v.version;for(let b=0,k=0;b<M;b+=3){let N=_[b+0],U=_[b+1],z=_[b+2];C[k++]=N,C[k++]=U,C[k++]=U,C[k++]=z,C[k++]=z,C[k++]=N}}else{g=p.version;for(let _=0,b=0;_<M;_+=3){let k=_+0,N=_+1,U=_+2;C[b++]=k,C[b++]=N,C[b++]=N,C[b++]=U,C[b++]=U,C[b++]=k}}w.version=g;let T=r.get(m);T&&t.remove(T),r.set(m,w)}function u(m){let v=r.get(m);if(v){let p=m.index;p!==null&&v.version<p.version&&d(m)}else d(m);return r.get(m)}function f(){for(let m in s){let v=s[m].deref();v!==void 0&&l(v)}}return{get:c,update:h,getWireframeAttribute:u,dispose:f}}function LM(i,t,e){let n;function s(d){n=d}let r,o;function a(d){r=d.type,o=d.bytesPerElement}function l(d,u){i.drawElements(n,u,r,d*o),e.update(u,n,1)}function c(d,u,f){f!==0&&(i.drawElementsInstanced(n,u,r,d*o,f),e.update(u,n,f))}function h(d,u,f){if(f===0)return;t.get("WEBGL_multi_draw").multiDrawElementsWEBGL(n,u,0,r,d,0,f);let v=0;for(let p=0;p<f;p++)v+=u[p];e.update(v,n,1)}this.setMode=s,this.setIndex=a,this.render=l,this.renderInstances=c,this.renderMultiDraw=h}function NM(i){let t={geometries:0,textures:0},e={frame:0,calls:0,triangles:0,points:0,lines:0};function n(r,o,a){switch(e.calls++,o){case i.TRIANGLES:e.triangles+=a*(r/3);break;case i.LINES:e.lines+=a*(r/2);break;case i.LINE_STRIP:e.lines+=a*(r-1);break;case i.LINE_LOOP:e.lines+=a*r;break;case i.POINTS:e.points+=a*r;break;default:Ut("WebGLInfo: Unknown draw mode:",o);break}}function s(){e.calls=0,e.triangles=0,e.points=0,e.lines=0}return{memory:t,render:e,programs:null,autoReset:!0,reset:s,update:n}}function DM(i,t,e){let n=new WeakMap,s=new me;function r(o,a,l){let c=o.morphTargetInfluences,h=a.morphAttributes.position||a.morphAttributes.normal||a.morphAttributes.color,d=h!==void 0?h.length:0,u=n.get(a);if(u===void 0||u.count!==d){let k=function(){_.dispose(),n.delete(a),a.removeEventListener("dispose",k)};u!==void 0&&u.texture.dispose();let f=a.morphAttributes.position!==void 0,m=a.morphAttributes.normal!==void 0,v=a.morphAttributes.color!==void 0,p=a.morphAttributes.position||[],g=a.morphAttributes.normal||[],M=a.morphAttributes.color||[],I=0;f===!0&&(I=1),m===!0&&(I=2),v===!0&&(I=3);let w=a.attributes.position.count*I,C=1;w>t.maxTextureSize&&(C=Math.ceil(w/t.maxTextureSize),w=t.maxTextureSize);let T=new Float32Array(w*C*4*d),_=new _r(T,w,C,d);_.type=Un,_.needsUpdate=!0;let b=I*4;for(let N=0;N<d;N++){let U=p[N],z=g[N],Y=M[N],L=w*C*4*N;for(let $=0;$<U.count;$++){let j=$*b;f===!0&&(s.fromBufferAttribute(U,$),T[L+j+0]=s.x,T[L+j+1]=s.y,T[L+j+2]=s.z,T[L+j+3]=0),m===!0&&(s.fromBufferAttribute(z,$),T[L+j+4]=s.x,T[L+j+5]=s.y,T[L+j+6]=s.z,T[L+j+7]=0),v===!0&&(s.fromBufferAttribute(Y,$),T[L+j+8]=s.x,T[L+j+9]=s.y,T[L+j+10]=s.z,T[L+j+11]=Y.itemSize===4?s.w:1)}}u={count:d,texture:_,size:new te(w,C)},n.set(a,u),a.addEventListener("dispose",k)}if(o.isInstancedMesh===!0&&o.morphTexture!==null)l.getUniforms().setValue(i,"morphTexture",o.morphTexture,e);else{let f=0;for(let v=0;v<c.length;v++)f+=c[v];let m=a.morphTargetsRelative?1:1-f;l.getUniforms().setValue(i,"morphTargetBaseInfluence",m),l.getUniforms().setValue(i,"morphTargetInfluences",c)}l.getUniforms().setValue(i,"morphTargetsTexture",u.texture,e),l.getUniforms().setValue(i,"morphTargetsTextureSize",u.size)}return{update:r}}function UM(i,t,e,n,s){let r=new WeakMap;function o(c){let h=s.render.frame,d=c.geometry,u=t.get(c,d);if(r.get(u)!==h&&(t.update(u),r.set(u,h)),c.isInstancedMesh&&(c.hasEventListener("dispose",l)===!1&&c.addEventListener("dispose",l),r.get(c)!==h&&(e.update(c.instanceMatrix,i.ARRAY_BUFFER),c.instanceColor!==null&&e.update(c.instanceColor,i.ARRAY_BUFFER),r.set(c,h))),c.isSkinnedMesh){let f=c.skeleton;r.get(f)!==h&&(f.update(),r.set(f,h))}return u}function a(){r=new WeakMap}function l(c){let h=c.target;h.removeEventListener("dispose",l),n.releaseStatesOfObject(h),e.remove(h.instanceMatrix),h.instanceColor!==null&&e.remove(h.instanceColor)}return{update:o,dispose:a}}var OM={[ph]:"LINEAR_TONE_MAPPING",[mh]:"REINHARD_TONE_MAPPING",[gh]:"CINEON_TONE_MAPPING",[_h]:"ACES_FILMIC_TONE_MAPPING",[yh]:"AGX_TONE_MAPPING",[vh]:"NEUTRAL_TONE_MAPPING",[xh]:"CUSTOM_TONE_MAPPING"};function FM(i,t,e,n,s,r){let o=new on(t,e,{type:i,depthBuffer:s,stencilBuffer:r,samples:n?4:0,storeMultisampledDepthBuffer:!1,storeMultisampledStencilBuffer:!1,resolveDepthBuffer:!1,resolveStencilBuffer:!1}),a=null,l=null,c=null,h=new Nn;h.setAttribute("position",new vn([-1,3,0,-1,-1,0,3,-1,0],3)),h.setAttribute("uv",new vn([0,2,0,0,2,0],2));let d=new Ps({uniforms:{tDiffuse:{value:null}},vertexShader:`
			precision highp float;

			uniform mat4 modelViewMatrix;
			uniform mat4 projectionMatrix;

			attribute vec3 position;
			attribute vec2 uv;

			varying vec2 vUv;

			void main() {
				vUv = uv;
				gl_Position = projectionMatrix * modelViewMatrix * vec4( position, 1.0 );
			}`,fragmentShader:`
			precision highp float;

			uniform sampler2D tDiffuse;

			varying vec2 vUv;

			#include <tonemapping_pars_fragment>
			#include <colorspace_pars_fragment>

			void main() {
				gl_FragColor = texture2D( tDiffuse, vUv );

				#ifdef LINEAR_TONE_MAPPING
					gl_FragColor.rgb = LinearToneMapping( gl_FragColor.rgb );
				#elif defined( REINHARD_TONE_MAPPING )
					gl_FragColor.rgb = ReinhardToneMapping( gl_FragColor.rgb );
				#elif defined( CINEON_TONE_MAPPING )
					gl_FragColor.rgb = CineonToneMapping( gl_FragColor.rgb );
				#elif defined( ACES_FILMIC_TONE_MAPPING )
					gl_FragColor.rgb = ACESFilmicToneMapping( gl_FragColor.rgb );
				#elif defined( AGX_TONE_MAPPING )
					gl_FragColor.rgb = AgXToneMapping( gl_FragColor.rgb );
				#elif defined( NEUTRAL_TONE_MAPPING )
					gl_FragColor.rgb = NeutralToneMapping( gl_FragColor.rgb );
				#elif defined( CUSTOM_TONE_MAPPING )
					gl_FragColor.rgb = CustomToneMapping( gl_FragColor.rgb );
				#endif

				#ifdef SRGB_TRANSFER
					gl_FragColor = sRGBTransferOETF( gl_FragColor );
				#endif
			}`,depthTest:!1,depthWrite:!1}),u=new Sn(h,d),f=new Ls(-1,1,1,-1,0,1),m=null,v=null,p=!1,g,M=null,I=[],w=!1;this.setSize=function(C,T){o.setSize(C,T),a!==null&&a.setSize(C,T),l!==null&&l.setSize(C,T);for(let _=0;_<I.length;_++){let b=I[_];b.setSize&&b.setSize(C,T)}},this.setEffects=function(C){I=C,w=I.length>0&&I[0].isRenderPass===!0;let T=o.width,_=o.height;I.length>0&&a===null&&(a=new on(T,_,{type:On,depthBuffer:!1,stencilBuffer:!1}),l=new on(T,_,{type:On,depthBuffer:!1,stencilBuffer:!1}));let b=s===!0&&I.some(k=>k.needsDepthTexture===!0);b!==(o.depthTexture!==null)&&(b===!0&&c===null&&(c=new ai(T,_),r===!0&&(c.format=ci,c.type=Yi)),o.dispose(),o.depthTexture=b?c:null,o.resolveDepthBuffer=b,o.storeMultisampledDepthBuffer=b);for(let k=0;k<I.length;k++){let N=I[k];N.setSize&&N.setSize(T,_),b&&N.needsDepthTexture===!0&&N.setDepthTexture&&N.setDepthTexture(c)}},this.begin=function(C,T){if(p||C.toneMapping===$n&&I.length===0)return!1;if(M=T,T!==null){let _=T.width,b=T.height;(o.width!==_||o.height!==b)&&this.setSize(_,b)}return w===!1&&C.setRenderTarget(o),g=C.toneMapping,C.toneMapping=$n,!0},this.hasRenderPass=function(){return w},this.end=function(C,T){C.toneMapping=g,p=!0;let _=o,b=a;for(let k=0;k<I.length;k++){let N=I[k];N.enabled!==!1&&(N.render(C,b,_,T),N.needsSwap!==!1&&(_=b,b=b===a?l:a))}if(m!==C.outputColorSpace||v!==C.toneMapping){m=C.outputColorSpace,v=C.toneMapping,d.defines={},Zt.getTransfer(m)===ne&&(d.defines.SRGB_TRANSFER="");let k=OM[v];k&&(d.defines[k]=""),d.needsUpdate=!0}d.uniforms.tDiffuse.value=_.texture,C.setRenderTarget(M),C.render(u,f),M=null,p=!1},this.isCompositing=function(){return p},this.dispose=function(){o.dispose(),a!==null&&a.dispose(),l!==null&&l.dispose(),h.dispose(),d.dispose()}}var Km=new Qe,jm=new ai(1,1),Qm=new br(1),tg=new _r,eg=new fa,ng=new Sr,Im=[],Pm=[],Lm=new Float32Array(16),Nm=new Float32Array(9),Dm=new Float32Array(4);function ks(i,t,e){let n=i[0];if(n<=0||n>0)return i;let s=t*e,r=Im[s];if(r===void 0&&(r=new Float32Array(s),Im[s]=r),t!==0){n.toArray(r,0);for(let o=1,a=0;o!==t;++o)a+=e,i[o].toArray(r,a)}return r}function Ae(i,t){if(i.length!==t.length)return!1;for(let e=0,n=i.length;e<n;e++)if(i[e]!==t[e])return!1;return!0}function Ee(i,t){for(let e=0,n=t.length;e<n;e++)i[e]=t[e]}function vl(i,t){let e=Pm[t];e===void 0&&(e=new Int32Array(t),Pm[t]=e);for(let n=0;n!==t;++n)e[n]=i.allocateTextureUnit();return e}function BM(i,t){let e=this.cache;e[0]!==t&&(i.uniform1f(this.addr,t),e[0]=t)}function kM(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y)&&(i.uniform2f(this.addr,t.x,t.y),e[0]=t.x,e[1]=t.y);else{if(Ae(e,t))return;i.uniform2fv(this.addr,t),Ee(e,t)}}function zM(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y||e[2]!==t.z)&&(i.uniform3f(this.addr,t.x,t.y,t.z),e[0]=t.x,e[1]=t.y,e[2]=t.z);else if(t.r!==void 0)(e[0]!==t.r||e[1]!==t.g||e[2]!==t.b)&&(i.uniform3f(this.addr,t.r,t.g,t.b),e[0]=t.r,e[1]=t.g,e[2]=t.b);else{if(Ae(e,t))return;i.uniform3fv(this.addr,t),Ee(e,t)}}function GM(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y||e[2]!==t.z||e[3]!==t.w)&&(i.uniform4f(this.addr,t.x,t.y,t.z,t.w),e[0]=t.x,e[1]=t.y,e[2]=t.z,e[3]=t.w);else{if(Ae(e,t))return;i.uniform4fv(this.addr,t),Ee(e,t)}}function VM(i,t){let e=this.cache,n=t.elements;if(n===void 0){if(Ae(e,t))return;i.uniformMatrix2fv(this.addr,!1,t),Ee(e,t)}else{if(Ae(e,n))return;Dm.set(n),i.uniformMatrix2fv(this.addr,!1,Dm),Ee(e,n)}}function HM(i,t){let e=this.cache,n=t.elements;if(n===void 0){if(Ae(e,t))return;i.uniformMatrix3fv(this.addr,!1,t),Ee(e,t)}else{if(Ae(e,n))return;Nm.set(n),i.uniformMatrix3fv(this.addr,!1,Nm),Ee(e,n)}}function WM(i,t){let e=this.cache,n=t.elements;if(n===void 0){if(Ae(e,t))return;i.uniformMatrix4fv(this.addr,!1,t),Ee(e,t)}else{if(Ae(e,n))return;Lm.set(n),i.uniformMatrix4fv(this.addr,!1,Lm),Ee(e,n)}}function XM(i,t){let e=this.cache;e[0]!==t&&(i.uniform1i(this.addr,t),e[0]=t)}function $M(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y)&&(i.uniform2i(this.addr,t.x,t.y),e[0]=t.x,e[1]=t.y);else{if(Ae(e,t))return;i.uniform2iv(this.addr,t),Ee(e,t)}}function qM(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y||e[2]!==t.z)&&(i.uniform3i(this.addr,t.x,t.y,t.z),e[0]=t.x,e[1]=t.y,e[2]=t.z);else{if(Ae(e,t))return;i.uniform3iv(this.addr,t),Ee(e,t)}}function YM(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y||e[2]!==t.z||e[3]!==t.w)&&(i.uniform4i(this.addr,t.x,t.y,t.z,t.w),e[0]=t.x,e[1]=t.y,e[2]=t.z,e[3]=t.w);else{if(Ae(e,t))return;i.uniform4iv(this.addr,t),Ee(e,t)}}function ZM(i,t){let e=this.cache;e[0]!==t&&(i.uniform1ui(this.addr,t),e[0]=t)}function JM(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y)&&(i.uniform2ui(this.addr,t.x,t.y),e[0]=t.x,e[1]=t.y);else{if(Ae(e,t))return;i.uniform2uiv(this.addr,t),Ee(e,t)}}function KM(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y||e[2]!==t.z)&&(i.uniform3ui(this.addr,t.x,t.y,t.z),e[0]=t.x,e[1]=t.y,e[2]=t.z);else{if(Ae(e,t))return;i.uniform3uiv(this.addr,t),Ee(e,t)}}function jM(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y||e[2]!==t.z||e[3]!==t.w)&&(i.uniform4ui(this.addr,t.x,t.y,t.z,t.w),e[0]=t.x,e[1]=t.y,e[2]=t.z,e[3]=t.w);else{if(Ae(e,t))return;i.uniform4uiv(this.addr,t),Ee(e,t)}}function Ml(i){return i.version===0&&(i.compareFunction=Lh,i.needsUpdate=!0),i}function QM(i,t,e){let n=this.cache,s=e.allocateTextureUnit();n[0]!==s&&(i.uniform1i(this.addr,s),n[0]=s);let r;this.type===i.SAMPLER_2D_SHADOW?r=Ml(jm):r=Km,e.setTexture2D(t||r,s)}function tS(i,t,e){let n=this.cache,s=e.allocateTextureUnit();n[0]!==s&&(i.uniform1i(this.addr,s),n[0]=s),e.setTexture3D(t||eg,s)}function eS(i,t,e){let n=this.cache,s=e.allocateTextureUnit();n[0]!==s&&(i.uniform1i(this.addr,s),n[0]=s);let r;this.type===i.SAMPLER_CUBE_SHADOW?r=Ml(Qm):r=ng,e.setTextureCube(t||r,s)}function nS(i,t,e){let n=this.cache,s=e.allocateTextureUnit();n[0]!==s&&(i.uniform1i(this.addr,s),n[0]=s),e.setTexture2DArray(t||tg,s)}function iS(i){switch(i){case 5126:return BM;case 35664:return kM;case 35665:return zM;case 35666:return GM;case 35674:return VM;case 35675:return HM;case 35676:return WM;case 5124:case 35670:return XM;case 35667:case 35671:return $M;case 35668:case 35672:return qM;case 35669:case 35673:return YM;case 5125:return ZM;case 36294:return JM;case 36295:return KM;case 36296:return jM;case 35678:case 36198:case 36298:case 36306:case 35682:return QM;case 35679:case 36299:case 36307:return tS;case 35680:case 36300:case 36308:case 36293:return eS;case 36289:case 36303:case 36311:case 36292:return nS}}function sS(i,t){i.uniform1fv(this.addr,t)}function rS(i,t){let e=ks(t,this.size,2);i.uniform2fv(this.addr,e)}function oS(i,t){let e=ks(t,this.size,3);i.uniform3fv(this.addr,e)}function aS(i,t){let e=ks(t,this.size,4);i.uniform4fv(this.addr,e)}function lS(i,t){let e=ks(t,this.size,4);i.uniformMatrix2fv(this.addr,!1,e)}function cS(i,t){let e=ks(t,this.size,9);i.uniformMatrix3fv(this.addr,!1,e)}function hS(i,t){let e=ks(t,this.size,16);i.uniformMatrix4fv(this.addr,!1,e)}function uS(i,t){i.uniform1iv(this.addr,t)}function dS(i,t){i.uniform2iv(this.addr,t)}function fS(i,t){i.uniform3iv(this.addr,t)}function pS(i,t){i.uniform4iv(this.addr,t)}function mS(i,t){i.uniform1uiv(this.addr,t)}function gS(i,t){i.uniform2uiv(this.addr,t)}function _S(i,t){i.uniform3uiv(this.addr,t)}function xS(i,t){i.uniform4uiv(this.addr,t)}function yS(i,t,e){let n=this.cache,s=t.length,r=vl(e,s);Ae(n,r)||(i.uniform1iv(this.addr,r),Ee(n,r));let o;this.type===i.SAMPLER_2D_SHADOW?o=Ml(jm):o=Km;for(let a=0;a!==s;++a)e.setTexture2D(t[a]||o,r[a])}function vS(i,t,e){let n=this.cache,s=t.length,r=vl(e,s);Ae(n,r)||(i.uniform1iv(this.addr,r),Ee(n,r));for(let o=0;o!==s;++o)e.setTexture3D(t[o]||eg,r[o])}function MS(i,t,e){let n=this.cache,s=t.length,r=vl(e,s);Ae(n,r)||(i.uniform1iv(this.addr,r),Ee(n,r));let o;this.type===i.SAMPLER_CUBE_SHADOW?o=Ml(Qm):o=ng;for(let a=0;a!==s;++a)e.setTextureCube(t[a]||o,r[a])}function SS(i,t,e){let n=this.cache,s=t.length,r=vl(e,s);Ae(n,r)||(i.uniform1iv(this.addr,r),Ee(n,r));for(let o=0;o!==s;++o)e.setTexture2DArray(t[o]||tg,r[o])}function bS(i){switch(i){case 5126:return sS;case 35664:return rS;case 35665:return oS;case 35666:return aS;case 35674:return lS;case 35675:return cS;case 35676:return hS;case 5124:case 35670:return uS;case 35667:case 35671:return dS;case 35668:case 35672:return fS;case 35669:case 35673:return pS;case 5125:return mS;case 36294:return gS;case 36295:return _S;case 36296:return xS;case 35678:case 36198:case 36298:case 36306:case 35682:return yS;case 35679:case 36299:case 36307:return vS;case 35680:case 36300:case 36308:case 36293:return MS;case 36289:case 36303:case 36311:case 36292:return SS}}var $h=class{constructor(t,e,n){this.id=t,this.addr=n,this.cache=[],this.type=e.type,this.setValue=iS(e.type)}},qh=class{constructor(t,e,n){this.id=t,this.addr=n,this.cache=[],this.type=e.type,this.size=e.size,this.setValue=bS(e.type)}},Yh=class{constructor(t){this.id=t,this.seq=[],this.map={}}setValue(t,e,n){let s=this.seq;for(let r=0,o=s.length;r!==o;++r){let a=s[r];a.setValue(t,e[a.id],n)}}},Wh=/(\w+)(\])?(\[|\.)?/g;function Um(i,t){i.seq.push(t),i.map[t.id]=t}function wS(i,t,e){let n=i.name,s=n.length;for(Wh.lastIndex=0;;){let r=Wh.exec(n),o=Wh.lastIndex,a=r[1],l=r[2]==="]",c=r[3];if(l&&(a=a|0),c===void 0||c==="["&&o+2===s){Um(e,c===void 0?new $h(a,i,t):new qh(a,i,t));break}else{let d=e.map[a];d===void 0&&(d=new Yh(a),Um(e,d)),e=d}}}var Bs=class{constructor(t,e){this.seq=[],this.map={};let n=t.getProgramParameter(e,t.ACTIVE_UNIFORMS);for(let o=0;o<n;++o){let a=t.getActiveUniform(e,o),l=t.getUniformLocation(e,a.name);wS(a,l,this)}let s=[],r=[];for(let o of this.seq)o.type===t.SAMPLER_2D_SHADOW||o.type===t.SAMPLER_CUBE_SHADOW||o.type===t.SAMPLER_2D_ARRAY_SHADOW?s.push(o):r.push(o);s.length>0&&(this.seq=s.concat(r))}setValue(t,e,n,s){let r=this.map[e];r!==void 0&&r.setValue(t,n,s)}setOptional(t,e,n){let s=e[n];s!==void 0&&this.setValue(t,n,s)}static upload(t,e,n,s){for(let r=0,o=e.length;r!==o;++r){let a=e[r],l=n[a.id];l.needsUpdate!==!1&&a.setValue(t,l.value,s)}}static seqWithValue(t,e){let n=[];for(let s=0,r=t.length;s!==r;++s){let o=t[s];o.id in e&&n.push(o)}return n}};function Om(i,t,e){let n=i.createShader(t);return i.shaderSource(n,e),i.compileShader(n),n}var AS=37297,ES=0;function TS(i,t){let e=i.split(`
`),n=[],s=Math.max(t-6,0),r=Math.min(t+6,e.length);for(let o=s;o<r;o++){let a=o+1;n.push(`${a===t?">":" "} ${a}: ${e[o]}`)}return n.join(`
`)}var Fm=new Ot;function RS(i){Zt._getMatrix(Fm,Zt.workingColorSpace,i);let t=`mat3( ${Fm.elements.map(e=>e.toFixed(4))} )`;switch(Zt.getTransfer(i)){case pr:return[t,"LinearTransferOETF"];case ne:return[t,"sRGBTransferOETF"];default:return Nt("WebGLProgram: Unsupported color space: ",i),[t,"LinearTransferOETF"]}}function Bm(i,t,e){let n=i.getShaderParameter(t,i.COMPILE_STATUS),r=(i.getShaderInfoLog(t)||"").trim();if(n&&r==="")return"";let o=/ERROR: 0:(\d+)/.exec(r);if(o){let a=parseInt(o[1]);return e.toUpperCase()+`

`+r+`

`+TS(i.getShaderSource(t),a)}else return r}function CS(i,t){let e=RS(t);return[`vec4 ${i}( vec4 value ) {`,`	return ${e[1]}( vec4( ${e[0]} * value.rgb, value.a ) );`,"}"].join(`
`)}var IS={[ph]:"Linear",[mh]:"Reinhard",[gh]:"Cineon",[_h]:"ACESFilmic",[yh]:"AgX",[vh]:"Neutral",[xh]:"Custom"};function PS(i,t){let e=IS[t];return e===void 0?(Nt("WebGLProgram: Unsupported toneMapping:",t),"vec3 "+i+"( vec3 color ) { return LinearToneMapping( color ); }"):"vec3 "+i+"( vec3 color ) { return "+e+"ToneMapping( color ); }"}var _l=new V;function LS(){Zt.getLuminanceCoefficients(_l);let i=_l.x.toFixed(4),t=_l.y.toFixed(4),e=_l.z.toFixed(4);return["float luminance( const in vec3 rgb ) {",`	const vec3 weights = vec3( ${i}, ${t}, ${e} );`,"	return dot( weights, rgb );","}"].join(`
`)}function NS(i){return[i.extensionClipCullDistance?"#extension GL_ANGLE_clip_cull_distance : require":"",i.extensionMultiDraw?"#extension GL_ANGLE_multi_draw : require":""].filter(kr).join(`
`)}function DS(i){let t=[];for(let e in i){let n=i[e];n!==!1&&t.push("#define "+e+" "+n)}return t.join(`
`)}function US(i,t){let e={},n=i.getProgramParameter(t,i.ACTIVE_ATTRIBUTES);for(let s=0;s<n;s++){let r=i.getActiveAttrib(t,s),o=r.name,a=1;r.type===i.FLOAT_MAT2&&(a=2),r.type===i.FLOAT_MAT3&&(a=3),r.type===i.FLOAT_MAT4&&(a=4),e[o]={type:r.type,location:i.getAttribLocation(t,o),locationSize:a}}return e}function kr(i){return i!==""}function km(i,t){let e=t.numSpotLightShadows+t.numSpotLightMaps-t.numSpotLightShadowsWithMaps;return i.replace(/NUM_SUN_LIGHTS/g,t.numSunLights).replace(/NUM_DIR_LIGHTS/g,t.numDirLights).replace(/NUM_SPOT_LIGHTS/g,t.numSpotLights).replace(/NUM_SPOT_LIGHT_MAPS/g,t.numSpotLightMaps).replace(/NUM_SPOT_LIGHT_COORDS/g,e).replace(/NUM_RECT_AREA_LIGHTS/g,t.numRectAreaLights).replace(/NUM_POINT_LIGHTS/g,t.numPointLights).replace(/NUM_HEMI_LIGHTS/g,t.numHemiLights).replace(/NUM_SUN_LIGHT_SHADOWS/g,t.numSunLightShadows).replace(/NUM_DIR_LIGHT_SHADOWS/g,t.numDirLightShadows).replace(/NUM_SPOT_LIGHT_SHADOWS_WITH_MAPS/g,t.numSpotLightShadowsWithMaps).replace(/NUM_SPOT_LIGHT_SHADOWS/g,t.numSpotLightShadows).replace(/NUM_POINT_LIGHT_SHADOWS/g,t.numPointLightShadows).replace(/NUM_LIGHT_PROBE_GRIDS/g,t.numLightProbeGrids)}function zm(i,t){return i.replace(/NUM_CLIPPING_PLANES/g,t.numClippingPlanes).replace(/UNION_CLIPPING_PLANES/g,t.numClippingPlanes-t.numClipIntersection)}var OS=/^[ \t]*#include +<([\w\d./]+)>/gm;function Zh(i){return i.replace(OS,FS)}function FS(i,t){let e=Wt[t];if(e===void 0)throw new Error("THREE.WebGLProgram: Can not resolve #include <"+t+">");return Zh(e)}var BS=/#pragma unroll_loop_start\s+for\s*\(\s*int\s+i\s*=\s*(\d+)\s*;\s*i\s*<\s*(\d+)\s*;\s*i\s*\+\+\s*\)\s*{([\s\S]+?)}\s+#pragma unroll_loop_end/g;function Gm(i){return i.replace(BS,kS)}function kS(i,t,e,n){let s="";for(let r=parseInt(t);r<parseInt(e);r++)s+=n.replace(/\[\s*i\s*\]/g,"[ "+r+" ]").replace(/UNROLLED_LOOP_INDEX/g,r);return s}function Vm(i){let t=`precision ${i.precision} float;
	precision ${i.precision} int;
	precision ${i.precision} sampler2D;
	precision ${i.precision} samplerCube;
	precision ${i.precision} sampler3D;
	precision ${i.precision} sampler2DArray;
	precision ${i.precision} sampler2DShadow;
	precision ${i.precision} samplerCubeShadow;
	precision ${i.precision} sampler2DArrayShadow;
	precision ${i.precision} isampler2D;
	precision ${i.precision} isampler3D;
	precision ${i.precision} isamplerCube;
	precision ${i.precision} isampler2DArray;
	precision ${i.precision} usampler2D;
	precision ${i.precision} usampler3D;
	precision ${i.precision} usamplerCube;
	precision ${i.precision} usampler2DArray;
	`;return i.precision==="highp"?t+=`
#define HIGH_PRECISION`:i.precision==="mediump"?t+=`
#define MEDIUM_PRECISION`:i.precision==="lowp"&&(t+=`
#define LOW_PRECISION`),t}var zS={[Rr]:"SHADOWMAP_TYPE_PCF",[Ds]:"SHADOWMAP_TYPE_VSM"};function GS(i){return zS[i.shadowMapType]||"SHADOWMAP_TYPE_BASIC"}var VS={[Os]:"ENVMAP_MODE_REFRACTION"};function HS(i){return i.envMap===!1?"ENVMAP_MODE_REFLECTION":VS[i.envMapMode]||"ENVMAP_MODE_REFLECTION"}var WS={[fh]:"ENVMAP_BLENDING_MULTIPLY",[rm]:"ENVMAP_BLENDING_MIX",[om]:"ENVMAP_BLENDING_ADD"};function XS(i){return i.envMap===!1?"ENVMAP_BLENDING_NONE":WS[i.combine]||"ENVMAP_BLENDING_NONE"}function $S(i,t,e,n){let s=i.getContext(),r=e.defines,o=e.vertexShader,a=e.fragmentShader,l=GS(e),c=e.envMapPMREM===!0?"ENVMAP_TYPE_PMREM":"ENVMAP_TYPE_CUBE",h=HS(e),d=XS(e),u=NS(e),f=DS(r),m=s.createProgram(),v,p,g=e.glslVersion?"#version "+e.glslVersion+`
`:"";e.isRawShaderMaterial?(v=["#define SHADER_TYPE "+e.shaderType,"#define SHADER_NAME "+e.shaderName,f].filter(kr).join(`
`),v.length>0&&(v+=`
`),p=["#define SHADER_TYPE "+e.shaderType,"#define SHADER_NAME "+e.shaderName,f].filter(kr).join(`
`),p.length>0&&(p+=`
`)):(v=[Vm(e),"#define SHADER_TYPE "+e.shaderType,"#define SHADER_NAME "+e.shaderName,f,e.extensionClipCullDistance?"#define USE_CLIP_DISTANCE":"",e.batching?"#define USE_BATCHING":"",e.batchingColor?"#define USE_BATCHING_COLOR":"",e.instancing?"#define USE_INSTANCING":"",e.instancingColor?"#define USE_INSTANCING_COLOR":"",e.instancingMorph?"#define USE_INSTANCING_MORPH":"",e.useFog&&e.fog?"#define USE_FOG":"",e.useFog&&e.fogExp2?"#define FOG_EXP2":"",e.map?"#define USE_MAP":"",e.envMap?"#define USE_ENVMAP":"",e.envMap?"#define "+h:"",e.lightMap?"#define USE_LIGHTMAP":"",e.aoMap?"#define USE_AOMAP":"",e.bumpMap?"#define USE_BUMPMAP":"",e.normalMap?"#define USE_NORMALMAP":"",e.normalMapObjectSpace?"#define USE_NORMALMAP_OBJECTSPACE":"",e.normalMapTangentSpace?"#define USE_NORMALMAP_TANGENTSPACE":"",e.displacementMap?"#define USE_DISPLACEMENTMAP":"",e.emissiveMap?"#define USE_EMISSIVEMAP":"",e.anisotropy?"#define USE_ANISOTROPY":"",e.anisotropyMap?"#define USE_ANISOTROPYMAP":"",e.clearcoatMap?"#define USE_CLEARCOATMAP":"",e.clearcoatRoughnessMap?"#define USE_CLEARCOAT_ROUGHNESSMAP":"",e.clearcoatNormalMap?"#define USE_CLEARCOAT_NORMALMAP":"",e.diffuseRoughnessMap?"#define USE_DIFFUSE_ROUGHNESSMAP":"",e.iridescenceMap?"#define USE_IRIDESCENCEMAP":"",e.iridescenceThicknessMap?"#define USE_IRIDESCENCE_THICKNESSMAP":"",e.specularMap?"#define USE_SPECULARMAP":"",e.specularColorMap?"#define USE_SPECULAR_COLORMAP":"",e.specularIntensityMap?"#define USE_SPECULAR_INTENSITYMAP":"",e.roughnessMap?"#define USE_ROUGHNESSMAP":"",e.metalnessMap?"#define USE_METALNESSMAP":"",e.alphaMap?"#define USE_ALPHAMAP":"",e.alphaHash?"#define USE_ALPHAHASH":"",e.transmission?"#define USE_TRANSMISSION":"",e.transmissionMap?"#define USE_TRANSMISSIONMAP":"",e.thicknessMap?"#define USE_THICKNESSMAP":"",e.sheenColorMap?"#define USE_SHEEN_COLORMAP":"",e.sheenRoughnessMap?"#define USE_SHEEN_ROUGHNESSMAP":"",e.mapUv?"#define MAP_UV "+e.mapUv:"",e.alphaMapUv?"#define ALPHAMAP_UV "+e.alphaMapUv:"",e.lightMapUv?"#define LIGHTMAP_UV "+e.lightMapUv:"",e.aoMapUv?"#define AOMAP_UV "+e.aoMapUv:"",e.emissiveMapUv?"#define EMISSIVEMAP_UV "+e.emissiveMapUv:"",e.bumpMapUv?"#define BUMPMAP_UV "+e.bumpMapUv:"",e.normalMapUv?"#define NORMALMAP_UV "+e.normalMapUv:"",e.displacementMapUv?"#define DISPLACEMENTMAP_UV "+e.displacementMapUv:"",e.metalnessMapUv?"#define METALNESSMAP_UV "+e.metalnessMapUv:"",e.roughnessMapUv?"#define ROUGHNESSMAP_UV "+e.roughnessMapUv:"",e.anisotropyMapUv?"#define ANISOTROPYMAP_UV "+e.anisotropyMapUv:"",e.clearcoatMapUv?"#define CLEARCOATMAP_UV "+e.clearcoatMapUv:"",e.clearcoatNormalMapUv?"#define CLEARCOAT_NORMALMAP_UV "+e.clearcoatNormalMapUv:"",e.clearcoatRoughnessMapUv?"#define CLEARCOAT_ROUGHNESSMAP_UV "+e.clearcoatRoughnessMapUv:"",e.diffuseRoughnessMapUv?"#define DIFFUSE_ROUGHNESSMAP_UV "+e.diffuseRoughnessMapUv:"",e.iridescenceMapUv?"#define IRIDESCENCEMAP_UV "+e.iridescenceMapUv:"",e.iridescenceThicknessMapUv?"#define IRIDESCENCE_THICKNESSMAP_UV "+e.iridescenceThicknessMapUv:"",e.sheenColorMapUv?"#define SHEEN_COLORMAP_UV "+e.sheenColorMapUv:"",e.sheenRoughnessMapUv?"#define SHEEN_ROUGHNESSMAP_UV "+e.sheenRoughnessMapUv:"",e.specularMapUv?"#define SPECULARMAP_UV "+e.specularMapUv:"",e.specularColorMapUv?"#define SPECULAR_COLORMAP_UV "+e.specularColorMapUv:"",e.specularIntensityMapUv?"#define SPECULAR_INTENSITYMAP_UV "+e.specularIntensityMapUv:"",e.transmissionMapUv?"#define TRANSMISSIONMAP_UV "+e.transmissionMapUv:"",e.thicknessMapUv?"#define THICKNESSMAP_UV "+e.thicknessMapUv:"",e.vertexTangents&&e.flatShading===!1?"#define USE_TANGENT":"",e.vertexNormals?"#define HAS_NORMAL":"",e.vertexColors?"#define USE_COLOR":"",e.vertexAlphas?"#define USE_COLOR_ALPHA":"",e.vertexUv1s?"#define USE_UV1":"",e.vertexUv2s?"#define USE_UV2":"",e.vertexUv3s?"#define USE_UV3":"",e.pointsUvs?"#define USE_POINTS_UV":"",e.flatShading?"#define FLAT_SHADED":"",e.skinning?"#define USE_SKINNING":"",e.morphTargets?"#define USE_MORPHTARGETS":"",e.morphNormals&&e.flatShading===!1?"#define USE_MORPHNORMALS":"",e.morphColors?"#define USE_MORPHCOLORS":"",e.morphTargetsCount>0?"#define MORPHTARGETS_TEXTURE_STRIDE "+e.morphTextureStride:"",e.morphTargetsCount>0?"#define MORPHTARGETS_COUNT "+e.morphTargetsCount:"",e.doubleSided?"#define DOUBLE_SIDED":"",e.flipSided?"#define FLIP_SIDED":"",e.shadowMapEnabled?"#define USE_SHADOWMAP":"",e.shadowMapEnabled?"#define "+l:"",e.sizeAttenuation?"#define USE_SIZEATTENUATION":"",e.numLightProbes>0?"#define USE_LIGHT_PROBES":"",e.logarithmicDepthBuffer?"#define USE_LOGARITHMIC_DEPTH_BUFFER":"",e.reversedDepthBuffer?"#define USE_REVERSED_DEPTH_BUFFER":"","uniform mat4 modelMatrix;","uniform mat4 modelViewMatrix;","uniform mat4 projectionMatrix;","uniform mat4 viewMatrix;","uniform mat3 normalMatrix;","uniform vec3 cameraPosition;","uniform bool isOrthographic;","#ifdef USE_INSTANCING","	attribute mat4 instanceMatrix;","#endif","#ifdef USE_INSTANCING_COLOR","	attribute vec3 instanceColor;","#endif","#ifdef USE_INSTANCING_MORPH","	uniform sampler2D morphTexture;","#endif","attribute vec3 position;","attribute vec3 normal;","attribute vec2 uv;","#ifdef USE_UV1","	attribute vec2 uv1;","#endif","#ifdef USE_UV2","	attribute vec2 uv2;","#endif","#ifdef USE_UV3","	attribute vec2 uv3;","#endif","#ifdef USE_TANGENT","	attribute vec4 tangent;","#endif","#if defined( USE_COLOR_ALPHA )","	attribute vec4 color;","#elif defined( USE_COLOR )","	attribute vec3 color;","#endif","#ifdef USE_SKINNING","	attribute vec4 skinIndex;","	attribute vec4 skinWeight;","#endif",`
`].filter(kr).join(`
`),p=[Vm(e),"#define SHADER_TYPE "+e.shaderType,"#define SHADER_NAME "+e.shaderName,f,e.useFog&&e.fog?"#define USE_FOG":"",e.useFog&&e.fogExp2?"#define FOG_EXP2":"",e.alphaToCoverage?"#define ALPHA_TO_COVERAGE":"",e.map?"#define USE_MAP":"",e.matcap?"#define USE_MATCAP":"",e.envMap?"#define USE_ENVMAP":"",e.envMap?"#define "+c:"",e.envMap?"#define "+h:"",e.envMap?"#define "+d:"",e.envMapPMREM?"#define ENVMAP_MAX_LOD "+e.envMapMaxLod+".0":"",e.envMapPMREM?"#define ENVMAP_SIZE "+e.envMapSize+".0":"",e.lightMap?"#define USE_LIGHTMAP":"",e.aoMap?"#define USE_AOMAP":"",e.bumpMap?"#define USE_BUMPMAP":"",e.normalMap?"#define USE_NORMALMAP":"",e.normalMapObjectSpace?"#define USE_NORMALMAP_OBJECTSPACE":"",e.normalMapTangentSpace?"#define USE_NORMALMAP_TANGENTSPACE":"",e.packedNormalMap?"#define USE_PACKED_NORMALMAP":"",e.emissiveMap?"#define USE_EMISSIVEMAP":"",e.anisotropy?"#define USE_ANISOTROPY":"",e.anisotropyMap?"#define USE_ANISOTROPYMAP":"",e.clearcoat?"#define USE_CLEARCOAT":"",e.clearcoatMap?"#define USE_CLEARCOATMAP":"",e.clearcoatRoughnessMap?"#define USE_CLEARCOAT_ROUGHNESSMAP":"",e.clearcoatNormalMap?"#define USE_CLEARCOAT_NORMALMAP":"",e.diffuseRoughness?"#define USE_DIFFUSE_ROUGHNESS":"",e.diffuseRoughnessMap?"#define USE_DIFFUSE_ROUGHNESSMAP":"",e.dispersion?"#define USE_DISPERSION":"",e.retroreflection?"#define USE_RETROREFLECTION":"",e.iridescence?"#define USE_IRIDESCENCE":"",e.iridescenceMap?"#define USE_IRIDESCENCEMAP":"",e.iridescenceThicknessMap?"#define USE_IRIDESCENCE_THICKNESSMAP":"",e.specularMap?"#define USE_SPECULARMAP":"",e.specularColorMap?"#define USE_SPECULAR_COLORMAP":"",e.specularIntensityMap?"#define USE_SPECULAR_INTENSITYMAP":"",e.roughnessMap?"#define USE_ROUGHNESSMAP":"",e.metalnessMap?"#define USE_METALNESSMAP":"",e.alphaMap?"#define USE_ALPHAMAP":"",e.alphaTest?"#define USE_ALPHATEST":"",e.alphaHash?"#define USE_ALPHAHASH":"",e.sheen?"#define USE_SHEEN":"",e.sheenColorMap?"#define USE_SHEEN_COLORMAP":"",e.sheenRoughnessMap?"#define USE_SHEEN_ROUGHNESSMAP":"",e.transmission?"#define USE_TRANSMISSION":"",e.transmissionMap?"#define USE_TRANSMISSIONMAP":"",e.thicknessMap?"#define USE_THICKNESSMAP":"",e.vertexTangents&&e.flatShading===!1?"#define USE_TANGENT":"",e.vertexColors||e.instancingColor?"#define USE_COLOR":"",e.vertexAlphas||e.batchingColor?"#define USE_COLOR_ALPHA":"",e.vertexUv1s?"#define USE_UV1":"",e.vertexUv2s?"#define USE_UV2":"",e.vertexUv3s?"#define USE_UV3":"",e.pointsUvs?"#define USE_POINTS_UV":"",e.gradientMap?"#define USE_GRADIENTMAP":"",e.flatShading?"#define FLAT_SHADED":"",e.doubleSided?"#define DOUBLE_SIDED":"",e.flipSided?"#define FLIP_SIDED":"",e.shadowMapEnabled?"#define USE_SHADOWMAP":"",e.shadowMapEnabled?"#define "+l:"",e.premultipliedAlpha?"#define PREMULTIPLIED_ALPHA":"",e.numLightProbes>0?"#define USE_LIGHT_PROBES":"",e.decodeVideoTexture?"#define DECODE_VIDEO_TEXTURE":"",e.decodeVideoTextureEmissive?"#define DECODE_VIDEO_TEXTURE_EMISSIVE":"",e.logarithmicDepthBuffer?"#define USE_LOGARITHMIC_DEPTH_BUFFER":"",e.reversedDepthBuffer?"#define USE_REVERSED_DEPTH_BUFFER":"","uniform mat4 viewMatrix;","uniform vec3 cameraPosition;","uniform bool isOrthographic;",e.toneMapping!==$n?"#define TONE_MAPPING":"",e.toneMapping!==$n?Wt.tonemapping_pars_fragment:"",e.toneMapping!==$n?PS("toneMapping",e.toneMapping):"",e.dithering?"#define DITHERING":"",e.opaque?"#define OPAQUE":"",Wt.colorspace_pars_fragment,CS("linearToOutputTexel",e.outputColorSpace),LS(),e.useDepthPacking?"#define DEPTH_PACKING "+e.depthPacking:"",`
`].filter(kr).join(`
`)),o=Zh(o),o=km(o,e),o=zm(o,e),a=Zh(a),a=km(a,e),a=zm(a,e),o=Gm(o),a=Gm(a),e.isRawShaderMaterial!==!0&&(g=`#version 300 es
`,v=[u,"#define attribute in","#define varying out","#define texture2D texture"].join(`
`)+`
`+v,p=["#define varying in",e.glslVersion===Or?"":"layout(location = 0) out highp vec4 pc_fragColor;",e.glslVersion===Or?"":"#define gl_FragColor pc_fragColor","#define gl_FragDepthEXT gl_FragDepth","#define texture2D texture","#define textureCube texture","#define texture2DProj textureProj","#define texture2DLodEXT textureLod","#define texture2DProjLodEXT textureProjLod","#define textureCubeLodEXT textureLod","#define texture2DGradEXT textureGrad","#define texture2DProjGradEXT textureProjGrad","#define textureCubeGradEXT textureGrad"].join(`
`)+`
`+p);let M=g+v+o,I=g+p+a,w=Om(s,s.VERTEX_SHADER,M),C=Om(s,s.FRAGMENT_SHADER,I);s.attachShader(m,w),s.attachShader(m,C),e.index0AttributeName!==void 0?s.bindAttribLocation(m,0,e.index0AttributeName):e.hasPositionAttribute===!0&&s.bindAttribLocation(m,0,"position"),s.linkProgram(m);function T(N){if(i.debug.checkShaderErrors){let U=s.getProgramInfoLog(m)||"",z=s.getShaderInfoLog(w)||"",Y=s.getShaderInfoLog(C)||"",L=U.trim(),$=z.trim(),j=Y.trim(),H=!0,it=!0;if(s.getProgramParameter(m,s.LINK_STATUS)===!1)if(H=!1,typeof i.debug.onShaderError=="function")i.debug.onShaderError(s,m,w,C);else{let X=Bm(s,w,"vertex"),tt=Bm(s,C,"fragment");Ut("WebGLProgram: Shader Error "+s.getError()+" - VALIDATE_STATUS "+s.getProgramParameter(m,s.VALIDATE_STATUS)+`

Material Name: `+N.name+`
Material Type: `+N.type+`

Program Info Log: `+L+`
`+X+`
`+tt)}else L!==""?Nt("WebGLProgram: Program Info Log:",L):($===""||j==="")&&(it=!1);it&&(N.diagnostics={runnable:H,programLog:L,vertexShader:{log:$,prefix:v},fragmentShader:{log:j,prefix:p}})}s.deleteShader(w),s.deleteShader(C),_=new Bs(s,m),b=US(s,m)}let _;this.getUniforms=function(){return _===void 0&&T(this),_};let b;this.getAttributes=function(){return b===void 0&&T(this),b};let k=e.rendererExtensionParallelShaderCompile===!1;return this.isReady=function(){return k===!1&&(k=s.getProgramParameter(m,AS)),k},this.destroy=function(){n.releaseStatesOfProgram(this),s.deleteProgram(m),this.program=void 0},this.type=e.shaderType,this.name=e.shaderName,this.id=ES++,this.cacheKey=t,this.usedTimes=1,this.program=m,this.vertexShader=w,this.fragmentShader=C,this}var qS=0,Jh=class{constructor(){this.shaderCache=new Map,this.materialCache=new Map}update(t,e,n){let s=this._getShaderCacheForMaterial(t);return s.has(e)===!1&&(s.add(e),e.usedTimes++),s.has(n)===!1&&(s.add(n),n.usedTimes++),this}remove(t){let e=this.materialCache.get(t);for(let n of e)n.usedTimes--,n.usedTimes===0&&this.shaderCache.delete(n.code);return this.materialCache.delete(t),this}getVertexShaderStage(t){return this._getShaderStage(t.vertexShader)}getFragmentShaderStage(t){return this._getShaderStage(t.fragmentShader)}dispose(){this.shaderCache.clear(),this.materialCache.clear()}_getShaderCacheForMaterial(t){let e=this.materialCache,n=e.get(t);return n===void 0&&(n=new Set,e.set(t,n)),n}_getShaderStage(t){let e=this.shaderCache,n=e.get(t);return n===void 0&&(n=new Kh(t),e.set(t,n)),n}},Kh=class{constructor(t){this.id=qS++,this.code=t,this.usedTimes=0}};function YS(i){return i===Ri||i===Dr||i===Ur}function ZS(i,t,e,n,s,r){let o=new xr,a=new Jh,l=new Set,c=[],h=new Map,d=n.logarithmicDepthBuffer,u={MeshDepthMaterial:"depth",MeshDistanceMaterial:"distance",MeshNormalMaterial:"normal",MeshBasicMaterial:"basic",MeshLambertMaterial:"lambert",MeshPhongMaterial:"phong",MeshToonMaterial:"toon",MeshStandardMaterial:"physical",MeshPhysicalMaterial:"physical",MeshMatcapMaterial:"matcap",LineBasicMaterial:"basic",LineDashedMaterial:"dashed",PointsMaterial:"points",ShadowMaterial:"shadow",SpriteMaterial:"sprite"};function f(_){return l.add(_),_===0?"uv":`uv${_}`}function m(_,b,k,N,U,z){let Y=N.fog,L=U.geometry,$=_.isMeshStandardMaterial||_.isMeshLambertMaterial||_.isMeshPhongMaterial?N.environment:null,j=_.isMeshStandardMaterial||_.isMeshLambertMaterial&&!_.envMap||_.isMeshPhongMaterial&&!_.envMap,H=t.get(_.envMap||$,j),it=u[_.type],X=n.precision;_.precision!==null&&(X=n.getMaxPrecision(_.precision),X!==_.precision&&Nt("WebGLProgram.getParameters:",_.precision,"not supported, using",X,"instead."));let tt=L.morphAttributes.position||L.morphAttributes.normal||L.morphAttributes.color,et=tt!==void 0?tt.length:0,bt=0;L.morphAttributes.position!==void 0&&(bt=1),L.morphAttributes.normal!==void 0&&(bt=2),L.morphAttributes.color!==void 0&&(bt=3);let Bt,J,gt,vt;if(it){let pt=Yn[it];Bt=pt.vertexShader,J=pt.fragmentShader}else{Bt=_.vertexShader,J=_.fragmentShader;let pt=a.getVertexShaderStage(_),se=a.getFragmentShaderStage(_);a.update(_,pt,se),gt=pt.id,vt=se.id}let Ct=i.getRenderTarget(),_t=i.state.buffers.depth.getReversed(),Gt=U.isInstancedMesh===!0,xe=U.isBatchedMesh===!0,Lt=!!_.map,ie=!!_.matcap,re=!!H,$t=re&&H.isPMREMTexture===!0,Ue=!!_.aoMap,Me=!!_.lightMap,je=!!_.bumpMap&&_.wireframe===!1,fe=!!_.normalMap,Bn=!!_.displacementMap,Te=!!_.emissiveMap,hn=!!_.metalnessMap,un=!!_.roughnessMap,dn=_.anisotropy>0,D=_.clearcoat>0,fn=_.diffuseRoughness>0,he=_.dispersion>0,ue=_.retroreflectivity>0,ft=_.iridescence>0,Se=_.sheen>0,It=_.transmission>0,Ft=dn&&!!_.anisotropyMap,S=D&&!!_.clearcoatMap,x=D&&!!_.clearcoatNormalMap,F=D&&!!_.clearcoatRoughnessMap,nt=fn&&!!_.diffuseRoughnessMap,Q=ft&&!!_.iridescenceMap,ot=ft&&!!_.iridescenceThicknessMap,ut=Se&&!!_.sheenColorMap,q=Se&&!!_.sheenRoughnessMap,Z=!!_.specularMap,lt=!!_.specularColorMap,R=!!_.specularIntensityMap,K=It&&!!_.transmissionMap,W=It&&!!_.thicknessMap,ct=!!_.gradientMap,rt=!!_.alphaMap,at=_.alphaTest>0,At=!!_.alphaHash,Ht=!!_.extensions,st=$n;_.toneMapped&&(Ct===null||Ct.isXRRenderTarget===!0)&&(st=i.toneMapping);let Et=$t?H.isCompressedCubeTexture?H.image[0].mipmaps:H.mipmaps:null,Vt={shaderID:it,shaderType:_.type,shaderName:_.name,vertexShader:Bt,fragmentShader:J,defines:_.defines,customVertexShaderID:gt,customFragmentShaderID:vt,isRawShaderMaterial:_.isRawShaderMaterial===!0,glslVersion:_.glslVersion,precision:X,batching:xe,batchingColor:xe&&U._colorsTexture!==null,instancing:Gt,instancingColor:Gt&&U.instanceColor!==null,instancingMorph:Gt&&U.morphTexture!==null,outputColorSpace:Ct===null?i.outputColorSpace:Ct.isXRRenderTarget===!0?Ct.texture.colorSpace:Zt.workingColorSpace,alphaToCoverage:!!_.alphaToCoverage,map:Lt,matcap:ie,envMap:re,envMapMode:re&&H.mapping,envMapPMREM:$t,envMapMaxLod:$t?Et.length-1:null,envMapSize:$t?Et[0].width:null,aoMap:Ue,lightMap:Me,bumpMap:je,normalMap:fe,displacementMap:Bn,emissiveMap:Te,normalMapObjectSpace:fe&&_.normalMapType===cm,normalMapTangentSpace:fe&&_.normalMapType===Ch,packedNormalMap:fe&&_.normalMapType===Ch&&YS(_.normalMap.format),metalnessMap:hn,roughnessMap:un,anisotropy:dn,anisotropyMap:Ft,clearcoat:D,clearcoatMap:S,clearcoatNormalMap:x,clearcoatRoughnessMap:F,diffuseRoughness:fn,diffuseRoughnessMap:nt,dispersion:he,retroreflection:ue,iridescence:ft,iridescenceMap:Q,iridescenceThicknessMap:ot,sheen:Se,sheenColorMap:ut,sheenRoughnessMap:q,specularMap:Z,specularColorMap:lt,specularIntensityMap:R,transmission:It,transmissionMap:K,thicknessMap:W,gradientMap:ct,opaque:_.transparent===!1&&_.blending===Us&&_.alphaToCoverage===!1,alphaMap:rt,alphaTest:at,alphaHash:At,combine:_.combine,mapUv:Lt&&f(_.map.channel),aoMapUv:Ue&&f(_.aoMap.channel),lightMapUv:Me&&f(_.lightMap.channel),bumpMapUv:je&&f(_.bumpMap.channel),normalMapUv:fe&&f(_.normalMap.channel),displacementMapUv:Bn&&f(_.displacementMap.channel),emissiveMapUv:Te&&f(_.emissiveMap.channel),metalnessMapUv:hn&&f(_.metalnessMap.channel),roughnessMapUv:un&&f(_.roughnessMap.channel),anisotropyMapUv:Ft&&f(_.anisotropyMap.channel),clearcoatMapUv:S&&f(_.clearcoatMap.channel),clearcoatNormalMapUv:x&&f(_.clearcoatNormalMap.channel),clearcoatRoughnessMapUv:F&&f(_.clearcoatRoughnessMap.channel),diffuseRoughnessMapUv:nt&&f(_.diffuseRoughnessMap.channel),iridescenceMapUv:Q&&f(_.iridescenceMap.channel),iridescenceThicknessMapUv:ot&&f(_.iridescenceThicknessMap.channel),sheenColorMapUv:ut&&f(_.sheenColorMap.channel),sheenRoughnessMapUv:q&&f(_.sheenRoughnessMap.channel),specularMapUv:Z&&f(_.specularMap.channel),specularColorMapUv:lt&&f(_.specularColorMap.channel),specularIntensityMapUv:R&&f(_.specularIntensityMap.channel),transmissionMapUv:K&&f(_.transmissionMap.channel),thicknessMapUv:W&&f(_.thicknessMap.channel),alphaMapUv:rt&&f(_.alphaMap.channel),vertexTangents:!!L.attributes.tangent&&(fe||dn),vertexNormals:!!L.attributes.normal,vertexColors:_.vertexColors,vertexAlphas:_.vertexColors===!0&&!!L.attributes.color&&L.attributes.color.itemSize===4,pointsUvs:U.isPoints===!0&&!!L.attributes.uv&&(Lt||rt),fog:!!Y,useFog:_.fog===!0,fogExp2:!!Y&&Y.isFogExp2,flatShading:_.wireframe===!1&&(_.flatShading===!0||L.attributes.normal===void 0&&fe===!1&&(_.isMeshLambertMaterial||_.isMeshPhongMaterial||_.isMeshStandardMaterial||_.isMeshPhysicalMaterial)),sizeAttenuation:_.sizeAttenuation===!0,logarithmicDepthBuffer:d,reversedDepthBuffer:_t,skinning:U.isSkinnedMesh===!0,hasPositionAttribute:L.attributes.position!==void 0,morphTargets:L.morphAttributes.position!==void 0,morphNormals:L.morphAttributes.normal!==void 0,morphColors:L.morphAttributes.color!==void 0,morphTargetsCount:et,morphTextureStride:bt,numSunLights:b.sun.length,numDirLights:b.directional.length,numPointLights:b.point.length,numSpotLights:b.spot.length,numSpotLightMaps:b.spotLightMap.length,numRectAreaLights:b.rectArea.length,numHemiLights:b.hemi.length,numSunLightShadows:b.sunShadowMap.length,numDirLightShadows:b.directionalShadowMap.length,numPointLightShadows:b.pointShadowMap.length,numSpotLightShadows:b.spotShadowMap.length,numSpotLightShadowsWithMaps:b.numSpotLightShadowsWithMaps,numLightProbes:b.numLightProbes,numLightProbeGrids:z.filter(pt=>pt.texture!==null).length,numClippingPlanes:r.numPlanes,numClipIntersection:r.numIntersection,dithering:_.dithering,shadowMapEnabled:i.shadowMap.enabled&&k.length>0,shadowMapType:i.shadowMap.type,toneMapping:st,decodeVideoTexture:Lt&&_.map.isVideoTexture===!0&&Zt.getTransfer(_.map.colorSpace)===ne,decodeVideoTextureEmissive:Te&&_.emissiveMap.isVideoTexture===!0&&Zt.getTransfer(_.emissiveMap.colorSpace)===ne,premultipliedAlpha:_.premultipliedAlpha,doubleSided:_.side===bn,flipSided:_.side===Ke,useDepthPacking:_.depthPacking>=0,depthPacking:_.depthPacking||0,index0AttributeName:_.index0AttributeName,extensionClipCullDistance:Ht&&_.extensions.clipCullDistance===!0&&e.has("WEBGL_clip_cull_distance"),extensionMultiDraw:(Ht&&_.extensions.multiDraw===!0||xe)&&e.has("WEBGL_multi_draw"),rendererExtensionParallelShaderCompile:e.has("KHR_parallel_shader_compile"),customProgramCacheKey:_.customProgramCacheKey()};return Vt.vertexUv1s=l.has(1),Vt.vertexUv2s=l.has(2),Vt.vertexUv3s=l.has(3),l.clear(),Vt}function v(_){let b=[];if(_.shaderID?b.push(_.shaderID):(b.push(_.customVertexShaderID),b.push(_.customFragmentShaderID)),_.defines!==void 0)for(let k in _.defines)b.push(k),b.push(_.defines[k]);return _.isRawShaderMaterial===!1&&(p(b,_),g(b,_),b.push(i.outputColorSpace)),b.push(_.customProgramCacheKey),b.join()}function p(_,b){_.push(b.precision),_.push(b.outputColorSpace),_.push(b.envMapMode),_.push(b.envMapPMREM),_.push(b.envMapMaxLod),_.push(b.envMapSize),_.push(b.mapUv),_.push(b.alphaMapUv),_.push(b.lightMapUv),_.push(b.aoMapUv),_.push(b.bumpMapUv),_.push(b.normalMapUv),_.push(b.displacementMapUv),_.push(b.emissiveMapUv),_.push(b.metalnessMapUv),_.push(b.roughnessMapUv),_.push(b.anisotropyMapUv),_.push(b.clearcoatMapUv),_.push(b.clearcoatNormalMapUv),_.push(b.clearcoatRoughnessMapUv),_.push(b.diffuseRoughnessMapUv),_.push(b.iridescenceMapUv),_.push(b.iridescenceThicknessMapUv),_.push(b.sheenColorMapUv),_.push(b.sheenRoughnessMapUv),_.push(b.specularMapUv),_.push(b.specularColorMapUv),_.push(b.specularIntensityMapUv),_.push(b.transmissionMapUv),_.push(b.thicknessMapUv),_.push(b.combine),_.push(b.fogExp2),_.push(b.sizeAttenuation),_.push(b.morphTargetsCount),_.push(b.numSunLights),_.push(b.numDirLights),_.push(b.numPointLights),_.push(b.numSpotLights),_.push(b.numSpotLightMaps),_.push(b.numHemiLights),_.push(b.numRectAreaLights),_.push(b.numSunLightShadows),_.push(b.numDirLightShadows),_.push(b.numPointLightShadows),_.push(b.numSpotLightShadows),_.push(b.numSpotLightShadowsWithMaps),_.push(b.numLightProbes),_.push(b.numLightProbeGrids),_.push(b.shadowMapType),_.push(b.toneMapping),_.push(b.numClippingPlanes),_.push(b.numClipIntersection),_.push(b.depthPacking)}function g(_,b){o.disableAll(),b.instancing&&o.enable(0),b.instancingColor&&o.enable(1),b.instancingMorph&&o.enable(2),b.matcap&&o.enable(3),b.envMap&&o.enable(4),b.normalMapObjectSpace&&o.enable(5),b.normalMapTangentSpace&&o.enable(6),b.clearcoat&&o.enable(7),b.iridescence&&o.enable(8),b.alphaTest&&o.enable(9),b.vertexColors&&o.enable(10),b.vertexAlphas&&o.enable(11),b.vertexUv1s&&o.enable(12),b.vertexUv2s&&o.enable(13),b.vertexUv3s&&o.enable(14),b.vertexTangents&&o.enable(15),b.anisotropy&&o.enable(16),b.alphaHash&&o.enable(17),b.batching&&o.enable(18),b.dispersion&&o.enable(19),b.retroreflection&&o.enable(24),b.diffuseRoughness&&o.enable(25),b.batchingColor&&o.enable(20),b.gradientMap&&o.enable(21),b.packedNormalMap&&o.enable(22),b.vertexNormals&&o.enable(23),_.push(o.mask),o.disableAll(),b.fog&&o.enable(0),b.useFog&&o.enable(1),b.flatShading&&o.enable(2),b.logarithmicDepthBuffer&&o.enable(3),b.reversedDepthBuffer&&o.enable(4),b.skinning&&o.enable(5),b.morphTargets&&o.enable(6),b.morphNormals&&o.enable(7),b.morphColors&&o.enable(8),b.premultipliedAlpha&&o.enable(9),b.shadowMapEnabled&&o.enable(10),b.doubleSided&&o.enable(11),b.flipSided&&o.enable(12),b.useDepthPacking&&o.enable(13),b.dithering&&o.enable(14),b.transmission&&o.enable(15),b.sheen&&o.enable(16),b.opaque&&o.enable(17),b.pointsUvs&&o.enable(18),b.decodeVideoTexture&&o.enable(19),b.decodeVideoTextureEmissive&&o.enable(20),b.alphaToCoverage&&o.enable(21),b.numLightProbeGrids>0&&o.enable(22),b.hasPositionAttribute&&o.enable(23),_.push(o.mask)}function M(_){let b=u[_.type],k;if(b){let N=Yn[b];k=bm.clone(N.uniforms)}else k=_.uniforms;return k}function I(_,b){let k=h.get(b);return k!==void 0?++k.usedTimes:(k=new $S(i,b,_,s),c.push(k),h.set(b,k)),k}function w(_){if(--_.usedTimes===0){let b=c.indexOf(_);c[b]=c[c.length-1],c.pop(),h.delete(_.cacheKey),_.destroy()}}function C(_){a.remove(_)}function T(){a.dispose()}return{getParameters:m,getProgramCacheKey:v,getUniforms:M,acquireProgram:I,releaseProgram:w,releaseShaderCache:C,programs:c,dispose:T}}function JS(){let i=new WeakMap;function t(o){return i.has(o)}function e(o){let a=i.get(o);return a===void 0&&(a={},i.set(o,a)),a}function n(o){i.delete(o)}function s(o,a,l){i.get(o)[a]=l}function r(){i=new WeakMap}return{has:t,get:e,remove:n,update:s,dispose:r}}function KS(i,t){return i.groupOrder!==t.groupOrder?i.groupOrder-t.groupOrder:i.renderOrder!==t.renderOrder?i.renderOrder-t.renderOrder:i.material.id!==t.material.id?i.material.id-t.material.id:i.materialVariant!==t.materialVariant?i.materialVariant-t.materialVariant:i.z!==t.z?i.z-t.z:i.id-t.id}function Hm(i,t){return i.groupOrder!==t.groupOrder?i.groupOrder-t.groupOrder:i.renderOrder!==t.renderOrder?i.renderOrder-t.renderOrder:i.z!==t.z?t.z-i.z:i.id-t.id}function Wm(){let i=[],t=0,e=[],n=[],s=[];function r(){t=0,e.length=0,n.length=0,s.length=0}function o(u){let f=0;return u.isInstancedMesh&&(f+=2),u.isSkinnedMesh&&(f+=1),f}function a(u,f,m,v,p,g){let M=i[t];return M===void 0?(M={id:u.id,object:u,geometry:f,material:m,materialVariant:o(u),groupOrder:v,renderOrder:u.renderOrder,z:p,group:g},i[t]=M):(M.id=u.id,M.object=u,M.geometry=f,M.material=m,M.materialVariant=o(u),M.groupOrder=v,M.renderOrder=u.renderOrder,M.z=p,M.group=g),t++,M}function l(u,f,m,v,p,g,M){M.reversedDepth===!0&&(p=-p);let I=a(u,f,m,v,p,g);m.transmission>0?n.push(I):m.transparent===!0?s.push(I):e.push(I)}function c(u,f,m,v,p,g){let M=a(u,f,m,v,p,g);m.transmission>0?n.unshift(M):m.transparent===!0?s.unshift(M):e.unshift(M)}function h(u,f){e.length>1&&e.sort(u||KS),n.length>1&&n.sort(f||Hm),s.length>1&&s.sort(f||Hm)}function d(){for(let u=t,f=i.length;u<f;u++){let m=i[u];if(m.id===null)break;m.id=null,m.object=null,m.geometry=null,m.material=null,m.group=null}}return{opaque:e,transmissive:n,transparent:s,init:r,push:l,unshift:c,finish:d,sort:h}}function jS(){let i=new WeakMap;function t(n,s){let r=i.get(n),o;return r===void 0?(o=new Wm,i.set(n,[o])):s>=r.length?(o=new Wm,r.push(o)):o=r[s],o}function e(){i=new WeakMap}return{get:t,dispose:e}}function QS(){let i={};return{get:function(t){if(i[t.id]!==void 0)return i[t.id];let e;switch(t.type){case"SunLight":case"DirectionalLight":e={direction:new V,color:new Qt};break;case"SpotLight":e={position:new V,direction:new V,color:new Qt,distance:0,coneCos:0,penumbraCos:0,decay:0};break;case"PointLight":e={position:new V,color:new Qt,distance:0,decay:0};break;case"HemisphereLight":e={direction:new V,skyColor:new Qt,groundColor:new Qt};break;case"RectAreaLight":e={color:new Qt,position:new V,halfWidth:new V,halfHeight:new V};break}return i[t.id]=e,e}}}function tb(){let i={};return{get:function(t){if(i[t.id]!==void 0)return i[t.id];let e;switch(t.type){case"SunLight":case"DirectionalLight":e={shadowIntensity:1,shadowBias:0,shadowNormalBias:0,shadowRadius:1,shadowMapSize:new te};break;case"SpotLight":e={shadowIntensity:1,shadowBias:0,shadowNormalBias:0,shadowRadius:1,shadowMapSize:new te};break;case"PointLight":e={shadowIntensity:1,shadowBias:0,shadowNormalBias:0,shadowRadius:1,shadowMapSize:new te,shadowCameraNear:1,shadowCameraFar:1e3};break}return i[t.id]=e,e}}}var eb=0;function nb(i,t){return(t.castShadow?2:0)-(i.castShadow?2:0)+(t.map?1:0)-(i.map?1:0)}function ib(i){let t=new QS,e=tb(),n={version:0,hash:{sunLength:-1,directionalLength:-1,pointLength:-1,spotLength:-1,rectAreaLength:-1,hemiLength:-1,numSunShadows:-1,numDirectionalShadows:-1,numPointShadows:-1,numSpotShadows:-1,numSpotMaps:-1,numLightProbes:-1},ambient:[0,0,0],probe:[],sun:[],sunShadow:[],sunShadowMap:[],sunShadowMatrix:[],sunShadowCascade:[],directional:[],directionalShadow:[],directionalShadowMap:[],directionalShadowMatrix:[],spot:[],spotLightMap:[],spotShadow:[],spotShadowMap:[],spotLightMatrix:[],rectArea:[],rectAreaLTC1:null,rectAreaLTC2:null,point:[],pointShadow:[],pointShadowMap:[],pointShadowMatrix:[],hemi:[],numSpotLightShadowsWithMaps:0,numLightProbes:0};for(let c=0;c<9;c++)n.probe.push(new V);let s=new V,r=new ge,o=new ge;function a(c){let h=0,d=0,u=0;for(let z=0;z<9;z++)n.probe[z].set(0,0,0);let f=0,m=0,v=0,p=0,g=0,M=0,I=0,w=0,C=0,T=0,_=0,b=0,k=0,N=0;c.sort(nb);for(let z=0,Y=c.length;z<Y;z++){let L=c[z],$=L.color,j=L.intensity,H=L.distance,it=null;if(L.shadow&&L.shadow.map&&(L.shadow.map.texture.format===Ri?it=L.shadow.map.texture:it=L.shadow.map.depthTexture||L.shadow.map.texture),L.isAmbientLight)h+=$.r*j,d+=$.g*j,u+=$.b*j;else if(L.isLightProbe){for(let X=0;X<9;X++)n.probe[X].addScaledVector(L.sh.coefficients[X],j);N++}else if(L.isSunLight){let X=t.get(L);if(X.color.copy(L.color).multiplyScalar(L.intensity),L.castShadow){let tt=L.shadow,et=e.get(L);et.shadowIntensity=tt.intensity,et.shadowBias=tt.bias,et.shadowNormalBias=tt.normalBias,et.shadowRadius=tt.radius,et.shadowMapSize.copy(tt.mapSize).multiply(tt.getFrameExtents()),n.sunShadow[m]=et,n.sunShadowMap[m]=it;let bt=tt.getViewportCount();for(let Bt=0;Bt<bt;Bt++)n.sunShadowMatrix[v+Bt]=tt.getMatrix(Bt),n.sunShadowCascade[v+Bt]=tt._cascadeData[Bt];v+=bt,m++}n.sun[f]=X,f++}else if(L.isDirectionalLight){let X=t.get(L);if(X.color.copy(L.color).multiplyScalar(L.intensity),L.castShadow){let tt=L.shadow,et=e.get(L);et.shadowIntensity=tt.intensity,et.shadowBias=tt.bias,et.shadowNormalBias=tt.normalBias,et.shadowRadius=tt.radius,et.shadowMapSize=tt.mapSize,n.directionalShadow[p]=et,n.directionalShadowMap[p]=it,n.directionalShadowMatrix[p]=L.shadow.matrix,C++}n.directional[p]=X,p++}else if(L.isSpotLight){let X=t.get(L);X.position.setFromMatrixPosition(L.matrixWorld),X.color.copy($).multiplyScalar(j),X.distance=H,X.coneCos=Math.cos(L.angle),X.penumbraCos=Math.cos(L.angle*(1-L.penumbra)),X.decay=L.decay,n.spot[M]=X;let tt=L.shadow;if(L.map&&(n.spotLightMap[b]=L.map,b++,tt.updateMatrices(L),L.castShadow&&k++),n.spotLightMatrix[M]=tt.matrix,L.castShadow){let et=e.get(L);et.shadowIntensity=tt.intensity,et.shadowBias=tt.bias,et.shadowNormalBias=tt.normalBias,et.shadowRadius=tt.radius,et.shadowMapSize=tt.mapSize,n.spotShadow[M]=et,n.spotShadowMap[M]=it,_++}M++}else if(L.isRectAreaLight){let X=t.get(L);X.color.copy($).multiplyScalar(j),X.halfWidth.set(L.width*.5,0,0),X.halfHeight.set(0,L.height*.5,0),n.rectArea[I]=X,I++}else if(L.isPointLight){let X=t.get(L);if(X.color.copy(L.color).multiplyScalar(L.intensity),X.distance=L.distance,X.decay=L.decay,L.castShadow){let tt=L.shadow,et=e.get(L);et.shadowIntensity=tt.intensity,et.shadowBias=tt.bias,et.shadowNormalBias=tt.normalBias,et.shadowRadius=tt.radius,et.shadowMapSize=tt.mapSize,et.shadowCameraNear=tt.camera.near,et.shadowCameraFar=tt.camera.far,n.pointShadow[g]=et,n.pointShadowMap[g]=it,n.pointShadowMatrix[g]=L.shadow.matrix,T++}n.point[g]=X,g++}else if(L.isHemisphereLight){let X=t.get(L);X.skyColor.copy(L.color).multiplyScalar(j),X.groundColor.copy(L.groundColor).multiplyScalar(j),n.hemi[w]=X,w++}}I>0&&(i.has("OES_texture_float_linear")===!0?(n.rectAreaLTC1=mt.LTC_FLOAT_1,n.rectAreaLTC2=mt.LTC_FLOAT_2):(n.rectAreaLTC1=mt.LTC_HALF_1,n.rectAreaLTC2=mt.LTC_HALF_2)),n.ambient[0]=h,n.ambient[1]=d,n.ambient[2]=u;let U=n.hash;(U.sunLength!==f||U.directionalLength!==p||U.pointLength!==g||U.spotLength!==M||U.rectAreaLength!==I||U.hemiLength!==w||U.numSunShadows!==m||U.numDirectionalShadows!==C||U.numPointShadows!==T||U.numSpotShadows!==_||U.numSpotMaps!==b||U.numLightProbes!==N)&&(n.sun.length=f,n.directional.length=p,n.spot.length=M,n.rectArea.length=I,n.point.length=g,n.hemi.length=w,n.sunShadow.length=m,n.sunShadowMap.length=m,n.sunShadowMatrix.length=v,n.sunShadowCascade.length=v,n.directionalShadow.length=C,n.directionalShadowMap.length=C,n.directionalShadowMatrix.length=C,n.pointShadow.length=T,n.pointShadowMap.length=T,n.pointShadowMatrix.length=T,n.spotShadow.length=_,n.spotShadowMap.length=_,n.spotLightMatrix.length=_+b-k,n.spotLightMap.length=b,n.numSpotLightShadowsWithMaps=k,n.numLightProbes=N,U.sunLength=f,U.directionalLength=p,U.pointLength=g,U.spotLength=M,U.rectAreaLength=I,U.hemiLength=w,U.numSunShadows=m,U.numDirectionalShadows=C,U.numPointShadows=T,U.numSpotShadows=_,U.numSpotMaps=b,U.numLightProbes=N,n.version=eb++)}function l(c,h){let d=0,u=0,f=0,m=0,v=0,p=0,g=h.matrixWorldInverse;for(let M=0,I=c.length;M<I;M++){let w=c[M];if(w.isSunLight){let C=n.sun[d];C.direction.setFromMatrixPosition(w.matrixWorld),C.direction.transformDirection(g),d++}else if(w.isDirectionalLight){let C=n.directional[u];C.direction.setFromMatrixPosition(w.matrixWorld),s.setFromMatrixPosition(w.target.matrixWorld),C.direction.sub(s),C.direction.transformDirection(g),u++}else if(w.isSpotLight){let C=n.spot[m];C.position.setFromMatrixPosition(w.matrixWorld),C.position.applyMatrix4(g),C.direction.setFromMatrixPosition(w.matrixWorld),s.setFromMatrixPosition(w.target.matrixWorld),C.direction.sub(s),C.direction.transformDirection(g),m++}else if(w.isRectAreaLight){let C=n.rectArea[v];C.position.setFromMatrixPosition(w.matrixWorld),C.position.applyMatrix4(g),o.identity(),r.copy(w.matrixWorld),r.premultiply(g),o.extractRotation(r),C.halfWidth.set(w.width*.5,0,0),C.halfHeight.set(0,w.height*.5,0),C.halfWidth.applyMatrix4(o),C.halfHeight.applyMatrix4(o),v++}else if(w.isPointLight){let C=n.point[f];C.position.setFromMatrixPosition(w.matrixWorld),C.position.applyMatrix4(g),f++}else if(w.isHemisphereLight){let C=n.hemi[p];C.direction.setFromMatrixPosition(w.matrixWorld),C.direction.transformDirection(g),p++}}}return{setup:a,setupView:l,state:n}}function Xm(i){let t=new ib(i),e=[],n=[],s=[];function r(d){h.camera=d,e.length=0,n.length=0,s.length=0}function o(d){d.isLightProbeGrid?s.push(d):e.push(d)}function a(d){n.push(d)}function l(){t.setup(e),s.sort((d,u)=>d.priority-u.priority||d.id-u.id)}function c(d){t.setupView(e,d)}let h={lightsArray:e,shadowsArray:n,lightProbeGridArray:s,camera:null,lights:t,transmissionRenderTarget:{},textureUnits:0};return{init:r,state:h,setupLights:l,setupLightsView:c,pushLight:o,pushShadow:a}}function sb(i){let t=new WeakMap;function e(s,r=0){let o=t.get(s),a;return o===void 0?(a=new Xm(i),t.set(s,[a])):r>=o.length?(a=new Xm(i),o.push(a)):a=o[r],a}function n(){t=new WeakMap}return{get:e,dispose:n}}var rb=`void main() {
	gl_Position = vec4( position, 1.0 );
}`,ob=`uniform sampler2D shadow_pass;
uniform vec2 resolution;
uniform float radius;
void main() {
	const float samples = float( VSM_SAMPLES );
	float mean = 0.0;
	float squared_mean = 0.0;
	float uvStride = samples <= 1.0 ? 0.0 : 2.0 / ( samples - 1.0 );
	float uvStart = samples <= 1.0 ? 0.0 : - 1.0;
	for ( float i = 0.0; i < samples; i ++ ) {
		float uvOffset = uvStart + i * uvStride;
		#ifdef HORIZONTAL_PASS
			vec2 distribution = texture2D( shadow_pass, ( gl_FragCoord.xy + vec2( uvOffset, 0.0 ) * radius ) / resolution ).rg;
			mean += distribution.x;
			squared_mean += distribution.y * distribution.y + distribution.x * distribution.x;
		#else
			float depth = texture2D( shadow_pass, ( gl_FragCoord.xy + vec2( 0.0, uvOffset ) * radius ) / resolution ).r;
			mean += depth;
			squared_mean += depth * depth;
		#endif
	}
	mean = mean / samples;
	squared_mean = squared_mean / samples;
	float std_dev = sqrt( max( 0.0, squared_mean - mean * mean ) );
	gl_FragColor = vec4( mean, std_dev, 0.0, 1.0 );
}`,ab=[new V(1,0,0),new V(-1,0,0),new V(0,1,0),new V(0,-1,0),new V(0,0,1),new V(0,0,-1)],lb=[new V(0,-1,0),new V(0,-1,0),new V(0,0,1),new V(0,0,-1),new V(0,-1,0),new V(0,-1,0)],$m=new ge,Br=new V,Xh=new V;function cb(i,t,e){let n=new Wi,s=new te,r=new te,o=new me,a=new _a,l=new xa,c={},h=e.maxTextureSize,d={[Xn]:Ke,[Ke]:Xn,[bn]:bn},u=new Wn({defines:{VSM_SAMPLES:8},uniforms:{shadow_pass:{value:null},resolution:{value:new te},radius:{value:4}},vertexShader:rb,fragmentShader:ob}),f=u.clone();f.defines.HORIZONTAL_PASS=1;let m=new Nn;m.setAttribute("position",new Be(new Float32Array([-1,-1,.5,3,-1,.5,-1,3,.5]),3));let v=new Sn(m,u),p=this;this.enabled=!1,this.autoUpdate=!0,this.needsUpdate=!1,this.type=Rr;let g=this.type;this.render=function(T,_,b){if(p.enabled===!1||p.autoUpdate===!1&&p.needsUpdate===!1||T.length===0)return;this.type===zp&&(Nt("WebGLShadowMap: PCFSoftShadowMap has been removed. Using PCFShadowMap instead."),this.type=Rr);let k=i.getRenderTarget(),N=i.getActiveCubeFace(),U=i.getActiveMipmapLevel(),z=i.state;z.setBlending(Xi),z.buffers.depth.getReversed()===!0?z.buffers.color.setClear(0,0,0,0):z.buffers.color.setClear(1,1,1,1),z.buffers.depth.setTest(!0),z.setScissorTest(!1);let Y=g!==this.type;Y&&_.traverse(function(L){L.material&&(Array.isArray(L.material)?L.material.forEach($=>$.needsUpdate=!0):L.material.needsUpdate=!0)});for(let L=0,$=T.length;L<$;L++){let j=T[L],H=j.shadow;if(H===void 0){Nt("WebGLShadowMap:",j,"has no shadow.");continue}if(H.autoUpdate===!1&&H.needsUpdate===!1)continue;s.copy(H.mapSize);let it=H.getFrameExtents();s.multiply(it),r.copy(H.mapSize),(s.x>h||s.y>h)&&(s.x>h&&(r.x=Math.floor(h/it.x),s.x=r.x*it.x,H.mapSize.x=r.x),s.y>h&&(r.y=Math.floor(h/it.y),s.y=r.y*it.y,H.mapSize.y=r.y));let X=i.state.buffers.depth.getReversed();if(H.camera._reversedDepth=X,H.map===null||Y===!0){if(H.map!==null&&(H.map.depthTexture!==null&&(H.map.depthTexture.dispose(),H.map.depthTexture=null),H.map.dispose()),this.type===Ds){if(j.isPointLight){Nt("WebGLShadowMap: VSM shadow maps are not supported for PointLights. Use PCF or BasicShadowMap instead.");continue}H.map=new on(s.x,s.y,{format:Ri,type:On,minFilter:De,magFilter:De,generateMipmaps:!1}),H.map.texture.name=j.name+".shadowMap",H.map.depthTexture=new ai(s.x,s.y,Un),H.map.depthTexture.name=j.name+".shadowMapDepth",H.map.depthTexture.format=oi,H.map.depthTexture.compareFunction=null,H.map.depthTexture.minFilter=Ne,H.map.depthTexture.magFilter=Ne}else j.isPointLight?(H.map=new zr(s.x),H.map.depthTexture=new br(s.x,Dn)):(H.map=new on(s.x,s.y),H.map.depthTexture=new ai(s.x,s.y,Dn)),H.map.depthTexture.name=j.name+".shadowMap",H.map.depthTexture.format=oi,this.type===Rr?(H.map.depthTexture.compareFunction=X?Ph:Ih,H.map.depthTexture.minFilter=De,H.map.depthTexture.magFilter=De):(H.map.depthTexture.compareFunction=null,H.map.depthTexture.minFilter=Ne,H.map.depthTexture.magFilter=Ne);H.camera.updateProjectionMatrix()}H.map.isWebGLCubeRenderTarget!==!0&&(H.map.width!==s.x||H.map.height!==s.y)&&H.map.setSize(s.x,s.y);let tt=H.map.isWebGLCubeRenderTarget?6:H.getViewportCount();j.isPointLight!==!0&&H.updateMatrices(j,b);let et=(H.camera.layers.mask&4294967294)!==0?H.camera.layers:b.layers;for(let bt=0;bt<tt;bt++){let Bt=H.getCamera(bt);if(j.isPointLight){let J=H.camera,gt=H.matrix,vt=j.distance||J.far;vt!==J.far&&(J.far=vt,J.updateProjectionMatrix()),Br.setFromMatrixPosition(j.matrixWorld),J.position.copy(Br),Xh.copy(J.position),Xh.add(ab[bt]),J.up.copy(lb[bt]),J.lookAt(Xh),J.updateMatrixWorld(),gt.makeTranslation(-Br.x,-Br.y,-Br.z),$m.multiplyMatrices(J.projectionMatrix,J.matrixWorldInverse),H._frustum.setFromProjectionMatrix($m,J.coordinateSystem,J.reversedDepth)}if(H.map.isWebGLCubeRenderTarget)i.setRenderTarget(H.map,bt),i.clear();else{bt===0&&(i.setRenderTarget(H.map),i.clear());let J=H.getViewport(bt);o.set(r.x*J.x,r.y*J.y,r.x*J.z,r.y*J.w),z.viewport(o)}n=H.getFrustum(bt),w(_,b,Bt,j,et,this.type)}H.isPointLightShadow!==!0&&this.type===Ds&&M(H,b),H.needsUpdate=!1}g=this.type,p.needsUpdate=!1,i.setRenderTarget(k,N,U)};function M(T,_){let b=t.update(v);u.defines.VSM_SAMPLES!==T.blurSamples&&(u.defines.VSM_SAMPLES=T.blurSamples,f.defines.VSM_SAMPLES=T.blurSamples,u.needsUpdate=!0,f.needsUpdate=!0),T.mapPass===null?T.mapPass=new on(s.x,s.y,{format:Ri,type:On}):(T.mapPass.width!==T.map.width||T.mapPass.height!==T.map.height)&&T.mapPass.setSize(T.map.width,T.map.height),u.uniforms.shadow_pass.value=T.map.depthTexture,u.uniforms.resolution.value.set(T.map.width,T.map.height),u.uniforms.radius.value=T.radius,i.setRenderTarget(T.mapPass),i.clear(),i.renderBufferDirect(_,null,b,u,v,null),f.uniforms.shadow_pass.value=T.mapPass.texture,f.uniforms.resolution.value.set(T.map.width,T.map.height),f.uniforms.radius.value=T.radius,i.setRenderTarget(T.map),i.clear(),i.renderBufferDirect(_,null,b,f,v,null)}function I(T,_,b,k){let N=null,U=b.isPointLight===!0?T.customDistanceMaterial:T.customDepthMaterial;if(U!==void 0)N=U;else if(N=b.isPointLight===!0?l:a,i.localClippingEnabled&&_.clipShadows===!0&&Array.isArray(_.clippingPlanes)&&_.clippingPlanes.length!==0||_.displacementMap&&_.displacementScale!==0||_.alphaMap&&_.alphaTest>0||_.map&&_.alphaTest>0||_.alphaToCoverage===!0){let z=N.uuid,Y=_.uuid,L=c[z];L===void 0&&(L={},c[z]=L);let $=L[Y];$===void 0&&($=N.clone(),L[Y]=$,_.addEventListener("dispose",C)),N=$}if(N.visible=_.visible,N.wireframe=_.wireframe,k===Ds?N.side=_.shadowSide!==null?_.shadowSide:_.side:N.side=_.shadowSide!==null?_.shadowSide:d[_.side],N.alphaMap=_.alphaMap,N.alphaTest=_.alphaToCoverage===!0?.5:_.alphaTest,N.map=_.map,N.clipShadows=_.clipShadows,N.clippingPlanes=_.clippingPlanes,N.clipIntersection=_.clipIntersection,N.displacementMap=_.displacementMap,N.displacementScale=_.displacementScale,N.displacementBias=_.displacementBias,N.wireframeLinewidth=_.wireframeLinewidth,N.linewidth=_.linewidth,b.isPointLight===!0&&N.isMeshDistanceMaterial===!0){let z=i.properties.get(N);z.light=b}return N}function w(T,_,b,k,N,U){if(T.visible===!1)return;if(T.layers.test(N)&&(T.isMesh||T.isLine||T.isPoints)&&(T.castShadow||T.receiveShadow&&U===Ds)&&(!T.frustumCulled||T.intersectsFrustum(n))){T.modelViewMatrix.multiplyMatrices(b.matrixWorldInverse,T.matrixWorld);let L=t.update(T),$=T.material;if(Array.isArray($)){let j=L.groups;for(let H=0,it=j.length;H<it;H++){let X=j[H],tt=$[X.materialIndex];if(tt&&tt.visible){let et=I(T,tt,k,U);T.onBeforeShadow(i,T,_,b,L,et,X),i.renderBufferDirect(b,null,L,et,T,X),T.onAfterShadow(i,T,_,b,L,et,X)}}}else if($.visible){let j=I(T,$,k,U);T.onBeforeShadow(i,T,_,b,L,j,null),i.renderBufferDirect(b,null,L,j,T,null),T.onAfterShadow(i,T,_,b,L,j,null)}}let Y=T.children;for(let L=0,$=Y.length;L<$;L++)w(Y[L],_,b,k,N,U)}function C(T){T.target.removeEventListener("dispose",C);for(let b in c){let k=c[b],N=T.target.uuid;N in k&&(k[N].dispose(),delete k[N])}}}function hb(i,t){function e(){let R=!1,K=new me,W=null,ct=new me(0,0,0,0);return{setMask:function(rt){W!==rt&&!R&&(i.colorMask(rt,rt,rt,rt),W=rt)},setLocked:function(rt){R=rt},setClear:function(rt,at,At,Ht,st){st===!0&&(rt*=Ht,at*=Ht,At*=Ht),K.set(rt,at,At,Ht),ct.equals(K)===!1&&(i.clearColor(rt,at,At,Ht),ct.copy(K))},reset:function(){R=!1,W=null,ct.set(-1,0,0,0)}}}function n(){let R=!1,K=!1,W=null,ct=null,rt=null;return{setReversed:function(at){if(K!==at){let At=t.get("EXT_clip_control");at?At.clipControlEXT(At.LOWER_LEFT_EXT,At.ZERO_TO_ONE_EXT):At.clipControlEXT(At.LOWER_LEFT_EXT,At.NEGATIVE_ONE_TO_ONE_EXT),K=at;let Ht=rt;rt=null,this.setClear(Ht)}},getReversed:function(){return K},setTest:function(at){at?_t(i.DEPTH_TEST):Gt(i.DEPTH_TEST)},setMask:function(at){W!==at&&!R&&(i.depthMask(at),W=at)},setFunc:function(at){if(K&&(at=vm[at]),ct!==at){switch(at){case ta:i.depthFunc(i.NEVER);break;case ea:i.depthFunc(i.ALWAYS);break;case na:i.depthFunc(i.LESS);break;case Si:i.depthFunc(i.LEQUAL);break;case ia:i.depthFunc(i.EQUAL);break;case sa:i.depthFunc(i.GEQUAL);break;case ra:i.depthFunc(i.GREATER);break;case oa:i.depthFunc(i.NOTEQUAL);break;default:i.depthFunc(i.LEQUAL)}ct=at}},setLocked:function(at){R=at},setClear:function(at){rt!==at&&(rt=at,K&&(at=1-at),i.clearDepth(at))},reset:function(){R=!1,W=null,ct=null,rt=null,K=!1}}}function s(){let R=!1,K=null,W=null,ct=null,rt=null,at=null,At=null,Ht=null,st=null;return{setTest:function(Et){R||(Et?_t(i.STENCIL_TEST):Gt(i.STENCIL_TEST))},setMask:function(Et){K!==Et&&!R&&(i.stencilMask(Et),K=Et)},setFunc:function(Et,Vt,pt){(W!==Et||ct!==Vt||rt!==pt)&&(i.stencilFunc(Et,Vt,pt),W=Et,ct=Vt,rt=pt)},setOp:function(Et,Vt,pt){(at!==Et||At!==Vt||Ht!==pt)&&(i.stencilOp(Et,Vt,pt),at=Et,At=Vt,Ht=pt)},setLocked:function(Et){R=Et},setClear:function(Et){st!==Et&&(i.clearStencil(Et),st=Et)},reset:function(){R=!1,K=null,W=null,ct=null,rt=null,at=null,At=null,Ht=null,st=null}}}let r=new e,o=new n,a=new s,l={},c=new WeakMap,h={},d={},u={},f=new WeakMap,m=[],v=null,p=!1,g=null,M=null,I=null,w=null,C=null,T=null,_=null,b=new Qt(0,0,0),k=0,N=!1,U=null,z=null,Y=null,L=null,$=null,j=i.getParameter(i.MAX_COMBINED_TEXTURE_IMAGE_UNITS),H=!1,it=0,X=i.getParameter(i.VERSION);X.indexOf("WebGL")!==-1?(it=parseFloat(/^WebGL (\d)/.exec(X)[1]),H=it>=1):X.indexOf("OpenGL ES")!==-1&&(it=parseFloat(/^OpenGL ES (\d)/.exec(X)[1]),H=it>=2);let tt=null,et={},bt=i.getParameter(i.SCISSOR_BOX),Bt=i.getParameter(i.VIEWPORT),J=new me().fromArray(bt),gt=new me().fromArray(Bt);function vt(R,K,W,ct){let rt=new Uint8Array(4),at=i.createTexture();i.bindTexture(R,at),i.texParameteri(R,i.TEXTURE_MIN_FILTER,i.NEAREST),i.texParameteri(R,i.TEXTURE_MAG_FILTER,i.NEAREST);for(let At=0;At<W;At++)R===i.TEXTURE_3D||R===i.TEXTURE_2D_ARRAY?i.texImage3D(K,0,i.RGBA,1,1,ct,0,i.RGBA,i.UNSIGNED_BYTE,rt):i.texImage2D(K+At,0,i.RGBA,1,1,0,i.RGBA,i.UNSIGNED_BYTE,rt);return at}let Ct={};Ct[i.TEXTURE_2D]=vt(i.TEXTURE_2D,i.TEXTURE_2D,1),Ct[i.TEXTURE_CUBE_MAP]=vt(i.TEXTURE_CUBE_MAP,i.TEXTURE_CUBE_MAP_POSITIVE_X,6),Ct[i.TEXTURE_2D_ARRAY]=vt(i.TEXTURE_2D_ARRAY,i.TEXTURE_2D_ARRAY,1,1),Ct[i.TEXTURE_3D]=vt(i.TEXTURE_3D,i.TEXTURE_3D,1,1),r.setClear(0,0,0,1),o.setClear(1),a.setClear(0),_t(i.DEPTH_TEST),o.setFunc(Si),je(!1),fe(ah),_t(i.CULL_FACE),Ue(Xi);function _t(R){h[R]!==!0&&(i.enable(R),h[R]=!0)}function Gt(R){h[R]!==!1&&(i.disable(R),h[R]=!1)}function xe(R,K){return u[R]!==K?(i.bindFramebuffer(R,K),u[R]=K,R===i.DRAW_FRAMEBUFFER&&(u[i.FRAMEBUFFER]=K),R===i.FRAMEBUFFER&&(u[i.DRAW_FRAMEBUFFER]=K),!0):!1}function Lt(R,K){let W=m,ct=!1;if(R){W=f.get(K),W===void 0&&(W=[],f.set(K,W));let rt=R.textures;if(W.length!==rt.length||W[0]!==i.COLOR_ATTACHMENT0){for(let at=0,At=rt.length;at<At;at++)W[at]=i.COLOR_ATTACHMENT0+at;W.length=rt.length,ct=!0}}else W[0]!==i.BACK&&(W[0]=i.BACK,ct=!0);ct&&i.drawBuffers(W)}function ie(R){return v!==R?(i.useProgram(R),v=R,!0):!1}let re={[$i]:i.FUNC_ADD,[Vp]:i.FUNC_SUBTRACT,[Hp]:i.FUNC_REVERSE_SUBTRACT};re[Wp]=i.MIN,re[Xp]=i.MAX;let $t={[$p]:i.ZERO,[qp]:i.ONE,[Yp]:i.SRC_COLOR,[uh]:i.SRC_ALPHA,[tm]:i.SRC_ALPHA_SATURATE,[jp]:i.DST_COLOR,[Jp]:i.DST_ALPHA,[Zp]:i.ONE_MINUS_SRC_COLOR,[dh]:i.ONE_MINUS_SRC_ALPHA,[Qp]:i.ONE_MINUS_DST_COLOR,[Kp]:i.ONE_MINUS_DST_ALPHA,[em]:i.CONSTANT_COLOR,[nm]:i.ONE_MINUS_CONSTANT_COLOR,[im]:i.CONSTANT_ALPHA,[sm]:i.ONE_MINUS_CONSTANT_ALPHA};function Ue(R,K,W,ct,rt,at,At,Ht,st,Et){if(R===Xi){p===!0&&(Gt(i.BLEND),p=!1);return}if(p===!1&&(_t(i.BLEND),p=!0),R!==Gp){if(R!==g||Et!==N){if((M!==$i||C!==$i)&&(i.blendEquation(i.FUNC_ADD),M=$i,C=$i),Et)switch(R){case Us:i.blendFuncSeparate(i.ONE,i.ONE_MINUS_SRC_ALPHA,i.ONE,i.ONE_MINUS_SRC_ALPHA);break;case lh:i.blendFunc(i.ONE,i.ONE);break;case ch:i.blendFuncSeparate(i.ZERO,i.ONE_MINUS_SRC_COLOR,i.ZERO,i.ONE);break;case hh:i.blendFuncSeparate(i.DST_COLOR,i.ONE_MINUS_SRC_ALPHA,i.ZERO,i.ONE);break;default:Ut("WebGLState: Invalid blending: ",R);break}else switch(R){case Us:i.blendFuncSeparate(i.SRC_ALPHA,i.ONE_MINUS_SRC_ALPHA,i.ONE,i.ONE_MINUS_SRC_ALPHA);break;case lh:i.blendFuncSeparate(i.SRC_ALPHA,i.ONE,i.ONE,i.ONE);break;case ch:Ut("WebGLState: SubtractiveBlending requires material.premultipliedAlpha = true");break;case hh:Ut("WebGLState: MultiplyBlending requires material.premultipliedAlpha = true");break;default:Ut("WebGLState: Invalid blending: ",R);break}I=null,w=null,T=null,_=null,b.set(0,0,0),k=0,g=R,N=Et}return}rt=rt||K,at=at||W,At=At||ct,(K!==M||rt!==C)&&(i.blendEquationSeparate(re[K],re[rt]),M=K,C=rt),(W!==I||ct!==w||at!==T||At!==_)&&(i.blendFuncSeparate($t[W],$t[ct],$t[at],$t[At]),I=W,w=ct,T=at,_=At),(Ht.equals(b)===!1||st!==k)&&(i.blendColor(Ht.r,Ht.g,Ht.b,st),b.copy(Ht),k=st),g=R,N=!1}function Me(R,K){R.side===bn?Gt(i.CULL_FACE):_t(i.CULL_FACE);let W=R.side===Ke;K&&(W=!W),je(W),R.blending===Us&&R.transparent===!1?Ue(Xi):Ue(R.blending,R.blendEquation,R.blendSrc,R.blendDst,R.blendEquationAlpha,R.blendSrcAlpha,R.blendDstAlpha,R.blendColor,R.blendAlpha,R.premultipliedAlpha),o.setFunc(R.depthFunc),o.setTest(R.depthTest),o.setMask(R.depthWrite),r.setMask(R.colorWrite);let ct=R.stencilWrite;a.setTest(ct),ct&&(a.setMask(R.stencilWriteMask),a.setFunc(R.stencilFunc,R.stencilRef,R.stencilFuncMask),a.setOp(R.stencilFail,R.stencilZFail,R.stencilZPass)),Te(R.polygonOffset,R.polygonOffsetFactor,R.polygonOffsetUnits),R.alphaToCoverage===!0?_t(i.SAMPLE_ALPHA_TO_COVERAGE):Gt(i.SAMPLE_ALPHA_TO_COVERAGE)}function je(R){U!==R&&(R?i.frontFace(i.CW):i.frontFace(i.CCW),U=R)}function fe(R){R!==Bp?(_t(i.CULL_FACE),R!==z&&(R===ah?i.cullFace(i.BACK):R===kp?i.cullFace(i.FRONT):i.cullFace(i.FRONT_AND_BACK))):Gt(i.CULL_FACE),z=R}function Bn(R){R!==Y&&(H&&i.lineWidth(R),Y=R)}function Te(R,K,W){R?(_t(i.POLYGON_OFFSET_FILL),(L!==K||$!==W)&&(L=K,$=W,o.getReversed()&&(K=-K,W=-W),i.polygonOffset(K,W))):Gt(i.POLYGON_OFFSET_FILL)}function hn(R){R?_t(i.SCISSOR_TEST):Gt(i.SCISSOR_TEST)}function un(R){R===void 0&&(R=i.TEXTURE0+j-1),tt!==R&&(i.activeTexture(R),tt=R)}function dn(R,K,W){W===void 0&&(tt===null?W=i.TEXTURE0+j-1:W=tt);let ct=et[W];ct===void 0&&(ct={type:void 0,texture:void 0},et[W]=ct),(ct.type!==R||ct.texture!==K)&&(tt!==W&&(i.activeTexture(W),tt=W),i.bindTexture(R,K||Ct[R]),ct.type=R,ct.texture=K)}function D(){let R=et[tt];R!==void 0&&R.type!==void 0&&(i.bindTexture(R.type,null),R.type=void 0,R.texture=void 0)}function fn(){try{i.compressedTexImage2D(...arguments)}catch(R){Ut("WebGLState:",R)}}function he(){try{i.compressedTexImage3D(...arguments)}catch(R){Ut("WebGLState:",R)}}function ue(){try{i.texSubImage2D(...arguments)}catch(R){Ut("WebGLState:",R)}}function ft(){try{i.texSubImage3D(...arguments)}catch(R){Ut("WebGLState:",R)}}function Se(){try{i.compressedTexSubImage2D(...arguments)}catch(R){Ut("WebGLState:",R)}}function It(){try{i.compressedTexSubImage3D(...arguments)}catch(R){Ut("WebGLState:",R)}}function Ft(){try{i.texStorage2D(...arguments)}catch(R){Ut("WebGLState:",R)}}function S(){try{i.texStorage3D(...arguments)}catch(R){Ut("WebGLState:",R)}}function x(){try{i.texImage2D(...arguments)}catch(R){Ut("WebGLState:",R)}}function F(){try{i.texImage3D(...arguments)}catch(R){Ut("WebGLState:",R)}}function nt(R){return d[R]!==void 0?d[R]:i.getParameter(R)}function Q(R,K){d[R]!==K&&(i.pixelStorei(R,K),d[R]=K)}function ot(R){J.equals(R)===!1&&(i.scissor(R.x,R.y,R.z,R.w),J.copy(R))}function ut(R){gt.equals(R)===!1&&(i.viewport(R.x,R.y,R.z,R.w),gt.copy(R))}function q(R,K){let W=c.get(K);W===void 0&&(W=new WeakMap,c.set(K,W));let ct=W.get(R);ct===void 0&&(ct=i.getUniformBlockIndex(K,R.name),i.uniformBlockBinding(K,ct,ct),W.set(R,ct))}function Z(R,K,W){let rt=c.get(K).get(R);l[rt]!==W&&(i.bindBufferBase(i.UNIFORM_BUFFER,rt,W),l[rt]=W)}function lt(){i.disable(i.BLEND),i.disable(i.CULL_FACE),i.disable(i.DEPTH_TEST),i.disable(i.POLYGON_OFFSET_FILL),i.disable(i.SCISSOR_TEST),i.disable(i.STENCIL_TEST),i.disable(i.SAMPLE_ALPHA_TO_COVERAGE),i.blendEquation(i.FUNC_ADD),i.blendFunc(i.ONE,i.ZERO),i.blendFuncSeparate(i.ONE,i.ZERO,i.ONE,i.ZERO),i.blendColor(0,0,0,0),i.colorMask(!0,!0,!0,!0),i.clearColor(0,0,0,0),i.depthMask(!0),i.depthFunc(i.LESS),o.setReversed(!1),i.clearDepth(1),i.stencilMask(4294967295),i.stencilFunc(i.ALWAYS,0,4294967295),i.stencilOp(i.KEEP,i.KEEP,i.KEEP),i.clearStencil(0),i.cullFace(i.BACK),i.frontFace(i.CCW),i.polygonOffset(0,0),i.activeTexture(i.TEXTURE0),i.bindFramebuffer(i.FRAMEBUFFER,null),i.bindFramebuffer(i.DRAW_FRAMEBUFFER,null),i.bindFramebuffer(i.READ_FRAMEBUFFER,null),i.useProgram(null),i.lineWidth(1),i.scissor(0,0,i.canvas.width,i.canvas.height),i.viewport(0,0,i.canvas.width,i.canvas.height),i.pixelStorei(i.PACK_ALIGNMENT,4),i.pixelStorei(i.UNPACK_ALIGNMENT,4),i.pixelStorei(i.UNPACK_FLIP_Y_WEBGL,!1),i.pixelStorei(i.UNPACK_PREMULTIPLY_ALPHA_WEBGL,!1),i.pixelStorei(i.UNPACK_COLORSPACE_CONVERSION_WEBGL,i.BROWSER_DEFAULT_WEBGL),i.pixelStorei(i.PACK_ROW_LENGTH,0),i.pixelStorei(i.PACK_SKIP_PIXELS,0),i.pixelStorei(i.PACK_SKIP_ROWS,0),i.pixelStorei(i.UNPACK_ROW_LENGTH,0),i.pixelStorei(i.UNPACK_IMAGE_HEIGHT,0),i.pixelStorei(i.UNPACK_SKIP_PIXELS,0),i.pixelStorei(i.UNPACK_SKIP_ROWS,0),i.pixelStorei(i.UNPACK_SKIP_IMAGES,0),h={},d={},tt=null,et={},u={},l={},f=new WeakMap,m=[],v=null,p=!1,g=null,M=null,I=null,w=null,C=null,T=null,_=null,b=new Qt(0,0,0),k=0,N=!1,U=null,z=null,Y=null,L=null,$=null,J.set(0,0,i.canvas.width,i.canvas.height),gt.set(0,0,i.canvas.width,i.canvas.height),r.reset(),o.reset(),a.reset()}return{buffers:{color:r,depth:o,stencil:a},enable:_t,disable:Gt,bindFramebuffer:xe,drawBuffers:Lt,useProgram:ie,setBlending:Ue,setMaterial:Me,setFlipSided:je,setCullFace:fe,setLineWidth:Bn,setPolygonOffset:Te,setScissorTest:hn,activeTexture:un,bindTexture:dn,unbindTexture:D,compressedTexImage2D:fn,compressedTexImage3D:he,texImage2D:x,texImage3D:F,pixelStorei:Q,getParameter:nt,updateUBOMapping:q,uniformBlockBinding:Z,texStorage2D:Ft,texStorage3D:S,texSubImage2D:ue,texSubImage3D:ft,compressedTexSubImage2D:Se,compressedTexSubImage3D:It,scissor:ot,viewport:ut,reset:lt}}function ub(i,t,e,n,s,r,o){let a=t.has("WEBGL_multisampled_render_to_texture")?t.get("WEBGL_multisampled_render_to_texture"):null,l=typeof navigator>"u"?!1:/OculusBrowser/g.test(navigator.userAgent),c=new te,h=new WeakMap,d=new Set,u,f=new WeakMap,m=new Set,v=new FinalizationRegistry(S=>m.delete(S)),p=!1;try{p=typeof OffscreenCanvas<"u"&&new OffscreenCanvas(1,1).getContext("2d")!==null}catch{}function g(S,x){return p?new OffscreenCanvas(S,x):gr("canvas")}function M(S,x,F){let nt=1,Q=Ft(S);if((Q.width>F||Q.height>F)&&(nt=F/Math.max(Q.width,Q.height)),nt<1)if(typeof HTMLImageElement<"u"&&S instanceof HTMLImageElement||typeof HTMLCanvasElement<"u"&&S instanceof HTMLCanvasElement||typeof ImageBitmap<"u"&&S instanceof ImageBitmap||typeof VideoFrame<"u"&&S instanceof VideoFrame){let ot=Math.floor(nt*Q.width),ut=Math.floor(nt*Q.height);u===void 0&&(u=g(ot,ut));let q=x?g(ot,ut):u;return q.width=ot,q.height=ut,q.getContext("2d").drawImage(S,0,0,ot,ut),Nt("WebGLRenderer: Texture has been resized from ("+Q.width+"x"+Q.height+") to ("+ot+"x"+ut+")."),q}else return"data"in S&&Nt("WebGLRenderer: Image in DataTexture is too big ("+Q.width+"x"+Q.height+")."),S;return S}function I(S){return S.generateMipmaps}function w(S){i.generateMipmap(S)}function C(S){return S.isWebGLCubeRenderTarget?i.TEXTURE_CUBE_MAP:S.isWebGL3DRenderTarget?i.TEXTURE_3D:S.isWebGLArrayRenderTarget||S.isCompressedArrayTexture?i.TEXTURE_2D_ARRAY:i.TEXTURE_2D}function T(S,x,F,nt,Q,ot=!1){if(S!==null){if(i[S]!==void 0)return i[S];Nt("WebGLRenderer: Attempt to use non-existing WebGL internal format '"+S+"'")}let ut;nt&&(ut=t.get("EXT_texture_norm16"),ut||Nt("WebGLRenderer: Unable to use normalized textures without EXT_texture_norm16 extension"));let q=x;if(x===i.RED&&(F===i.FLOAT&&(q=i.R32F),F===i.HALF_FLOAT&&(q=i.R16F),F===i.UNSIGNED_BYTE&&(q=i.R8),F===i.UNSIGNED_SHORT&&ut&&(q=ut.R16_EXT),F===i.SHORT&&ut&&(q=ut.R16_SNORM_EXT)),x===i.RED_INTEGER&&(F===i.UNSIGNED_BYTE&&(q=i.R8UI),F===i.UNSIGNED_SHORT&&(q=i.R16UI),F===i.UNSIGNED_INT&&(q=i.R32UI),F===i.BYTE&&(q=i.R8I),F===i.SHORT&&(q=i.R16I),F===i.INT&&(q=i.R32I)),x===i.RG&&(F===i.FLOAT&&(q=i.RG32F),F===i.HALF_FLOAT&&(q=i.RG16F),F===i.UNSIGNED_BYTE&&(q=i.RG8),F===i.UNSIGNED_SHORT&&ut&&(q=ut.RG16_EXT),F===i.SHORT&&ut&&(q=ut.RG16_SNORM_EXT)),x===i.RG_INTEGER&&(F===i.UNSIGNED_BYTE&&(q=i.RG8UI),F===i.UNSIGNED_SHORT&&(q=i.RG16UI),F===i.UNSIGNED_INT&&(q=i.RG32UI),F===i.BYTE&&(q=i.RG8I),F===i.SHORT&&(q=i.RG16I),F===i.INT&&(q=i.RG32I)),x===i.RGB_INTEGER&&(F===i.UNSIGNED_BYTE&&(q=i.RGB8UI),F===i.UNSIGNED_SHORT&&(q=i.RGB16UI),F===i.UNSIGNED_INT&&(q=i.RGB32UI),F===i.BYTE&&(q=i.RGB8I),F===i.SHORT&&(q=i.RGB16I),F===i.INT&&(q=i.RGB32I)),x===i.RGBA_INTEGER&&(F===i.UNSIGNED_BYTE&&(q=i.RGBA8UI),F===i.UNSIGNED_SHORT&&(q=i.RGBA16UI),F===i.UNSIGNED_INT&&(q=i.RGBA32UI),F===i.BYTE&&(q=i.RGBA8I),F===i.SHORT&&(q=i.RGBA16I),F===i.INT&&(q=i.RGBA32I)),x===i.RGB&&(F===i.UNSIGNED_SHORT&&ut&&(q=ut.RGB16_EXT),F===i.SHORT&&ut&&(q=ut.RGB16_SNORM_EXT),F===i.UNSIGNED_INT_5_9_9_9_REV&&(q=i.RGB9_E5),F===i.UNSIGNED_INT_10F_11F_11F_REV&&(q=i.R11F_G11F_B10F)),x===i.RGBA){let Z=ot?pr:Zt.getTransfer(Q);F===i.FLOAT&&(q=i.RGBA32F),F===i.HALF_FLOAT&&(q=i.RGBA16F),F===i.UNSIGNED_BYTE&&(q=Z===ne?i.SRGB8_ALPHA8:i.RGBA8),F===i.UNSIGNED_SHORT&&ut&&(q=ut.RGBA16_EXT),F===i.SHORT&&ut&&(q=ut.RGBA16_SNORM_EXT),F===i.UNSIGNED_SHORT_4_4_4_4&&(q=i.RGBA4),F===i.UNSIGNED_SHORT_5_5_5_1&&(q=i.RGB5_A1)}return(q===i.R16F||q===i.R32F||q===i.RG16F||q===i.RG32F||q===i.RGBA16F||q===i.RGBA32F)&&t.get("EXT_color_buffer_float"),q}function _(S,x){let F;return S?x===null||x===Dn||x===Yi?F=i.DEPTH24_STENCIL8:x===Un?F=i.DEPTH32F_STENCIL8:x===Fs&&(F=i.DEPTH24_STENCIL8,Nt("DepthTexture: 16 bit depth attachment is not supported with stencil. Using 24-bit attachment.")):x===null||x===Dn||x===Yi?F=i.DEPTH_COMPONENT24:x===Un?F=i.DEPTH_COMPONENT32F:x===Fs&&(F=i.DEPTH_COMPONENT16),F}function b(S,x){return I(S)===!0||S.isFramebufferTexture&&S.minFilter!==Ne&&S.minFilter!==De?Math.log2(Math.max(x.width,x.height))+1:S.mipmaps.length>0?S.mipmaps.length:S.isCompressedTexture&&Array.isArray(S.image)?x.mipmaps.length:1}function k(S){let x=new WeakRef(S);n.get(S).__ref=x,m.add(x),v.register(S,x,x)}function N(S){let x=n.get(S).__ref;x!==void 0&&(m.delete(x),v.unregister(x))}function U(S){Y(S.target)}function z(S){L(S.target)}function Y(S){S.removeEventListener("dispose",U),N(S),j(S),S.isVideoTexture&&h.delete(S),S.isHTMLTexture&&d.delete(S)}function L(S){S.removeEventListener("dispose",z),N(S),it(S)}function $(){for(let S of m){let x=S.deref();x!==void 0&&(x.isRenderTarget===!0?L(x):Y(x))}m.clear(),d.clear()}function j(S){let x=n.get(S);if(x.__webglInit===void 0)return;let F=S.source,nt=f.get(F);if(nt){let Q=nt[x.__cacheKey];Q.usedTimes--,Q.usedTimes===0&&H(S),Object.keys(nt).length===0&&f.delete(F)}n.remove(S)}function H(S){let x=n.get(S);i.deleteTexture(x.__webglTexture);let F=S.source,nt=f.get(F);delete nt[x.__cacheKey],o.memory.textures--}function it(S){let x=n.get(S);x.__depthDisposeCallback&&x.__depthDisposeCallback();let F=S.depthTexture;if(F&&F.renderTarget===S&&Y(F),S.isWebGLCubeRenderTarget)for(let Q=0;Q<6;Q++){if(Array.isArray(x.__webglFramebuffer[Q]))for(let ot=0;ot<x.__webglFramebuffer[Q].length;ot++)i.deleteFramebuffer(x.__webglFramebuffer[Q][ot]);else i.deleteFramebuffer(x.__webglFramebuffer[Q]);x.__webglDepthbuffer&&i.deleteRenderbuffer(x.__webglDepthbuffer[Q])}else{if(Array.isArray(x.__webglFramebuffer))for(let Q=0;Q<x.__webglFramebuffer.length;Q++)i.deleteFramebuffer(x.__webglFramebuffer[Q]);else i.deleteFramebuffer(x.__webglFramebuffer);if(x.__webglDepthbuffer&&i.deleteRenderbuffer(x.__webglDepthbuffer),x.__webglMultisampledFramebuffer&&i.deleteFramebuffer(x.__webglMultisampledFramebuffer),x.__webglColorRenderbuffer)for(let Q=0;Q<x.__webglColorRenderbuffer.length;Q++)x.__webglColorRenderbuffer[Q]&&i.deleteRenderbuffer(x.__webglColorRenderbuffer[Q]);x.__webglDepthRenderbuffer&&i.deleteRenderbuffer(x.__webglDepthRenderbuffer)}let nt=S.textures;for(let Q=0,ot=nt.length;Q<ot;Q++){let ut=n.get(nt[Q]);ut.__webglTexture&&(i.deleteTexture(ut.__webglTexture),o.memory.textures--),n.remove(nt[Q])}n.remove(S)}let X=0;function tt(){X=0}function et(){return X}function bt(S){X=S}function Bt(){let S=X;return S>=s.maxTextures&&Nt("WebGLTextures: Trying to use "+(S+1)+" texture units while this GPU supports only "+s.maxTextures),X+=1,S}function J(S){let x=[];return x.push(S.wrapS),x.push(S.wrapT),x.push(S.wrapR||0),x.push(S.magFilter),x.push(S.minFilter),x.push(S.anisotropy),x.push(S.internalFormat),x.push(S.format),x.push(S.type),x.push(S.generateMipmaps),x.push(S.mipmapsAutoUpdate),x.push(S.premultiplyAlpha),x.push(S.flipY),x.push(S.unpackAlignment),x.push(S.colorSpace),x.join()}function gt(S,x){let F=n.get(S);if(S.isVideoTexture&&Se(S),S.isRenderTargetTexture===!1&&S.isExternalTexture!==!0&&S.version>0&&F.__version!==S.version){let nt=S.image;if(nt===null)Nt("WebGLRenderer: Texture marked for update but no image data found.");else if(nt.complete===!1)Nt("WebGLRenderer: Texture marked for update but image is incomplete");else{Me(F,S,x);return}}else S.isExternalTexture&&(F.__webglTexture=S.sourceTexture?S.sourceTexture:null);e.bindTexture(i.TEXTURE_2D,F.__webglTexture,i.TEXTURE0+x)}function vt(S,x){let F=n.get(S);if(S.isRenderTargetTexture===!1&&S.version>0&&F.__version!==S.version){Me(F,S,x);return}else S.isExternalTexture&&(F.__webglTexture=S.sourceTexture?S.sourceTexture:null);e.bindTexture(i.TEXTURE_2D_ARRAY,F.__webglTexture,i.TEXTURE0+x)}function Ct(S,x){let F=n.get(S);if(S.isRenderTargetTexture===!1&&S.version>0&&F.__version!==S.version){Me(F,S,x);return}e.bindTexture(i.TEXTURE_3D,F.__webglTexture,i.TEXTURE0+x)}function _t(S,x){let F=n.get(S);if(S.version>0&&F.__version!==S.version){je(F,S,x);return}e.bindTexture(i.TEXTURE_CUBE_MAP,F.__webglTexture,i.TEXTURE0+x)}let Gt={[aa]:i.REPEAT,[Gn]:i.CLAMP_TO_EDGE,[la]:i.MIRRORED_REPEAT},xe={[Ne]:i.NEAREST,[am]:i.NEAREST_MIPMAP_NEAREST,[Cr]:i.NEAREST_MIPMAP_LINEAR,[De]:i.LINEAR,[Na]:i.LINEAR_MIPMAP_NEAREST,[li]:i.LINEAR_MIPMAP_LINEAR},Lt={[um]:i.NEVER,[Lh]:i.ALWAYS,[dm]:i.LESS,[Ih]:i.LEQUAL,[fm]:i.EQUAL,[Ph]:i.GEQUAL,[pm]:i.GREATER,[mm]:i.NOTEQUAL};function ie(S,x){if(x.type===Un&&t.has("OES_texture_float_linear")===!1&&(x.magFilter===De||x.magFilter===Na||x.magFilter===Cr||x.magFilter===li||x.minFilter===De||x.minFilter===Na||x.minFilter===Cr||x.minFilter===li)&&Nt("WebGLRenderer: Unable to use linear filtering with floating point textures. OES_texture_float_linear not supported on this device."),i.texParameteri(S,i.TEXTURE_WRAP_S,Gt[x.wrapS]),i.texParameteri(S,i.TEXTURE_WRAP_T,Gt[x.wrapT]),(S===i.TEXTURE_3D||S===i.TEXTURE_2D_ARRAY)&&i.texParameteri(S,i.TEXTURE_WRAP_R,Gt[x.wrapR]),i.texParameteri(S,i.TEXTURE_MAG_FILTER,xe[x.magFilter]),i.texParameteri(S,i.TEXTURE_MIN_FILTER,xe[x.minFilter]),x.compareFunction&&(i.texParameteri(S,i.TEXTURE_COMPARE_MODE,i.COMPARE_REF_TO_TEXTURE),i.texParameteri(S,i.TEXTURE_COMPARE_FUNC,Lt[x.compareFunction])),t.has("EXT_texture_filter_anisotropic")===!0){if(x.magFilter===Ne||x.minFilter!==Cr&&x.minFilter!==li||x.type===Un&&t.has("OES_texture_float_linear")===!1)return;if(x.anisotropy>1||n.get(x).__currentAnisotropy){let F=t.get("EXT_texture_filter_anisotropic");i.texParameterf(S,F.TEXTURE_MAX_ANISOTROPY_EXT,Math.min(x.anisotropy,s.getMaxAnisotropy())),n.get(x).__currentAnisotropy=x.anisotropy}}}function re(S,x){let F=!1;S.__webglInit===void 0&&(S.__webglInit=!0,x.addEventListener("dispose",U),k(x));let nt=x.source,Q=f.get(nt);Q===void 0&&(Q={},f.set(nt,Q));let ot=J(x);if(ot!==S.__cacheKey){Q[ot]===void 0&&(Q[ot]={texture:i.createTexture(),usedTimes:0},o.memory.textures++,F=!0),Q[ot].usedTimes++;let ut=Q[S.__cacheKey];ut!==void 0&&(Q[S.__cacheKey].usedTimes--,ut.usedTimes===0&&H(x)),S.__cacheKey=ot,S.__webglTexture=Q[ot].texture}return F}function $t(S,x,F){return Math.floor(Math.floor(S/F)/x)}function Ue(S,x,F,nt){let ot=S.updateRanges;if(ot.length===0)e.texSubImage2D(i.TEXTURE_2D,0,0,0,x.width,x.height,F,nt,x.data);else{ot.sort((R,K)=>R.start-K.start);let ut=0;for(let R=1;R<ot.length;R++){let K=ot[ut],W=ot[R],ct=K.start+K.count,rt=$t(W.start,x.width,4),at=$t(K.start,x.width,4);W.start<=ct+1&&rt===at&&$t(W.start+W.count-1,x.width,4)===rt?K.count=Math.max(K.count,W.start+W.count-K.start):(++ut,ot[ut]=W)}ot.length=ut+1;let q=e.getParameter(i.UNPACK_ROW_LENGTH),Z=e.getParameter(i.UNPACK_SKIP_PIXELS),lt=e.getParameter(i.UNPACK_SKIP_ROWS);e.pixelStorei(i.UNPACK_ROW_LENGTH,x.width);for(let R=0,K=ot.length;R<K;R++){let W=ot[R],ct=Math.floor(W.start/4),rt=Math.ceil(W.count/4),at=ct%x.width,At=Math.floor(ct/x.width),Ht=rt,st=1;e.pixelStorei(i.UNPACK_SKIP_PIXELS,at),e.pixelStorei(i.UNPACK_SKIP_ROWS,At),e.texSubImage2D(i.TEXTURE_2D,0,at,At,Ht,st,F,nt,x.data)}S.clearUpdateRanges(),e.pixelStorei(i.UNPACK_ROW_LENGTH,q),e.pixelStorei(i.UNPACK_SKIP_PIXELS,Z),e.pixelStorei(i.UNPACK_SKIP_ROWS,lt)}}function Me(S,x,F){let nt=i.TEXTURE_2D;(x.isDataArrayTexture||x.isCompressedArrayTexture)&&(nt=i.TEXTURE_2D_ARRAY),x.isData3DTexture&&(nt=i.TEXTURE_3D);let Q=re(S,x),ot=x.source;e.bindTexture(nt,S.__webglTexture,i.TEXTURE0+F);let ut=n.get(ot);if(ot.version!==ut.__version||Q===!0){if(e.activeTexture(i.TEXTURE0+F),(typeof ImageBitmap<"u"&&x.image instanceof ImageBitmap)===!1){let st=Zt.getPrimaries(Zt.workingColorSpace),Et=x.colorSpace===hi?null:Zt.getPrimaries(x.colorSpace),Vt=x.colorSpace===hi||st===Et?i.NONE:i.BROWSER_DEFAULT_WEBGL;e.pixelStorei(i.UNPACK_FLIP_Y_WEBGL,x.flipY),e.pixelStorei(i.UNPACK_PREMULTIPLY_ALPHA_WEBGL,x.premultiplyAlpha),e.pixelStorei(i.UNPACK_COLORSPACE_CONVERSION_WEBGL,Vt)}e.pixelStorei(i.UNPACK_ALIGNMENT,x.unpackAlignment);let Z=M(x.image,!1,s.maxTextureSize);Z=It(x,Z);let lt=r.convert(x.format,x.colorSpace),R=r.convert(x.type),K=T(x.internalFormat,lt,R,x.normalized,x.colorSpace,x.isVideoTexture);ie(nt,x);let W,ct=x.mipmaps,rt=x.isVideoTexture!==!0,at=ut.__version===void 0||Q===!0,At=ot.dataReady,Ht=b(x,Z);if(x.isDepthTexture)K=_(x.format===ci,x.type),at&&(rt?e.texStorage2D(i.TEXTURE_2D,1,K,Z.width,Z.height):e.texImage2D(i.TEXTURE_2D,0,K,Z.width,Z.height,0,lt,R,null));else if(x.isDataTexture)if(ct.length>0){rt&&at&&e.texStorage2D(i.TEXTURE_2D,Ht,K,ct[0].width,ct[0].height);for(let st=0,Et=ct.length;st<Et;st++)W=ct[st],rt?At&&e.texSubImage2D(i.TEXTURE_2D,st,0,0,W.width,W.height,lt,R,W.data):e.texImage2D(i.TEXTURE_2D,st,K,W.width,W.height,0,lt,R,W.data);x.generateMipmaps=!1}else rt?(at&&e.texStorage2D(i.TEXTURE_2D,Ht,K,Z.width,Z.height),At&&Ue(x,Z,lt,R)):e.texImage2D(i.TEXTURE_2D,0,K,Z.width,Z.height,0,lt,R,Z.data);else if(x.isCompressedTexture)if(x.isCompressedArrayTexture){rt&&at&&e.texStorage3D(i.TEXTURE_2D_ARRAY,Ht,K,ct[0].width,ct[0].height,Z.depth);for(let st=0,Et=ct.length;st<Et;st++)if(W=ct[st],x.format!==cn)if(lt!==null)if(rt){if(At)if(x.layerUpdates.size>0){let Vt=Bh(W.width,W.height,x.format,x.type);for(let pt of x.layerUpdates){let se=W.data.subarray(pt*Vt/W.data.BYTES_PER_ELEMENT,(pt+1)*Vt/W.data.BYTES_PER_ELEMENT);e.compressedTexSubImage3D(i.TEXTURE_2D_ARRAY,st,0,0,pt,W.width,W.height,1,lt,se)}}else e.compressedTexSubImage3D(i.TEXTURE_2D_ARRAY,st,0,0,0,W.width,W.height,Z.depth,lt,W.data)}else e.compressedTexImage3D(i.TEXTURE_2D_ARRAY,st,K,W.width,W.height,Z.depth,0,W.data,0,0);else Nt("WebGLRenderer: Attempt to load unsupported compressed texture format in .uploadTexture()");else rt?At&&e.texSubImage3D(i.TEXTURE_2D_ARRAY,st,0,0,0,W.width,W.height,Z.depth,lt,R,W.data):e.texImage3D(i.TEXTURE_2D_ARRAY,st,K,W.width,W.height,Z.depth,0,lt,R,W.data);x.layerUpdates.size>0&&x.clearLayerUpdates()}else{rt&&at&&e.texStorage2D(i.TEXTURE_2D,Ht,K,ct[0].width,ct[0].height);for(let st=0,Et=ct.length;st<Et;st++)W=ct[st],x.format!==cn?lt!==null?rt?At&&e.compressedTexSubImage2D(i.TEXTURE_2D,st,0,0,W.width,W.height,lt,W.data):e.compressedTexImage2D(i.TEXTURE_2D,st,K,W.width,W.height,0,W.data):Nt("WebGLRenderer: Attempt to load unsupported compressed texture format in .uploadTexture()"):rt?At&&e.texSubImage2D(i.TEXTURE_2D,st,0,0,W.width,W.height,lt,R,W.data):e.texImage2D(i.TEXTURE_2D,st,K,W.width,W.height,0,lt,R,W.data)}else if(x.isDataArrayTexture)if(rt){if(at&&e.texStorage3D(i.TEXTURE_2D_ARRAY,Ht,K,Z.width,Z.height,Z.depth),At)if(x.layerUpdates.size>0){let st=Bh(Z.width,Z.height,x.format,x.type);for(let Et of x.layerUpdates){let Vt=Z.data.subarray(Et*st/Z.data.BYTES_PER_ELEMENT,(Et+1)*st/Z.data.BYTES_PER_ELEMENT);e.texSubImage3D(i.TEXTURE_2D_ARRAY,0,0,0,Et,Z.width,Z.height,1,lt,R,Vt)}x.clearLayerUpdates()}else e.texSubImage3D(i.TEXTURE_2D_ARRAY,0,0,0,0,Z.width,Z.height,Z.depth,lt,R,Z.data)}else e.texImage3D(i.TEXTURE_2D_ARRAY,0,K,Z.width,Z.height,Z.depth,0,lt,R,Z.data);else if(x.isData3DTexture)rt?(at&&e.texStorage3D(i.TEXTURE_3D,Ht,K,Z.width,Z.height,Z.depth),At&&e.texSubImage3D(i.TEXTURE_3D,0,0,0,0,Z.width,Z.height,Z.depth,lt,R,Z.data)):e.texImage3D(i.TEXTURE_3D,0,K,Z.width,Z.height,Z.depth,0,lt,R,Z.data);else if(x.isFramebufferTexture){if(at)if(rt)e.texStorage2D(i.TEXTURE_2D,Ht,K,Z.width,Z.height);else{let st=Z.width,Et=Z.height;for(let Vt=0;Vt<Ht;Vt++)e.texImage2D(i.TEXTURE_2D,Vt,K,st,Et,0,lt,R,null),st>>=1,Et>>=1}}else if(x.isHTMLTexture){if("texElementImage2D"in i){let st=i.canvas;if(st.hasAttribute("layoutsubtree")||st.setAttribute("layoutsubtree","true"),Z.parentNode!==st){st.appendChild(Z),d.add(x),st.onpaint=Et=>{let Vt=Et.changedElements;for(let pt of d)Vt.includes(pt.image)&&(pt.needsUpdate=!0)},st.requestPaint();return}if(i.texElementImage2D.length===3)i.texElementImage2D(i.TEXTURE_2D,i.RGBA8,Z);else{let Vt=i.RGBA,pt=i.RGBA,se=i.UNSIGNED_BYTE;i.texElementImage2D(i.TEXTURE_2D,0,Vt,pt,se,Z)}i.texParameteri(i.TEXTURE_2D,i.TEXTURE_MIN_FILTER,i.LINEAR),i.texParameteri(i.TEXTURE_2D,i.TEXTURE_WRAP_S,i.CLAMP_TO_EDGE),i.texParameteri(i.TEXTURE_2D,i.TEXTURE_WRAP_T,i.CLAMP_TO_EDGE)}}else if(ct.length>0){if(rt&&at){let st=Ft(ct[0]);e.texStorage2D(i.TEXTURE_2D,Ht,K,st.width,st.height)}for(let st=0,Et=ct.length;st<Et;st++)W=ct[st],rt?At&&e.texSubImage2D(i.TEXTURE_2D,st,0,0,lt,R,W):e.texImage2D(i.TEXTURE_2D,st,K,lt,R,W);x.generateMipmaps=!1}else if(rt){if(at){let st=Ft(Z);e.texStorage2D(i.TEXTURE_2D,Ht,K,st.width,st.height)}At&&e.texSubImage2D(i.TEXTURE_2D,0,0,0,lt,R,Z)}else e.texImage2D(i.TEXTURE_2D,0,K,lt,R,Z);I(x)&&x.mipmapsAutoUpdate===!0&&w(nt),ut.__version=ot.version,x.onUpdate&&x.onUpdate(x)}S.__version=x.version}function je(S,x,F){if(x.image.length!==6)return;let nt=re(S,x),Q=x.source;e.bindTexture(i.TEXTURE_CUBE_MAP,S.__webglTexture,i.TEXTURE0+F);let ot=n.get(Q);if(Q.version!==ot.__version||nt===!0){e.activeTexture(i.TEXTURE0+F);let ut=Zt.getPrimaries(Zt.workingColorSpace),q=x.colorSpace===hi?null:Zt.getPrimaries(x.colorSpace),Z=x.colorSpace===hi||ut===q?i.NONE:i.BROWSER_DEFAULT_WEBGL;e.pixelStorei(i.UNPACK_FLIP_Y_WEBGL,x.flipY),e.pixelStorei(i.UNPACK_PREMULTIPLY_ALPHA_WEBGL,x.premultiplyAlpha),e.pixelStorei(i.UNPACK_ALIGNMENT,x.unpackAlignment),e.pixelStorei(i.UNPACK_COLORSPACE_CONVERSION_WEBGL,Z);let lt=x.isCompressedTexture||x.image[0].isCompressedTexture,R=x.image[0]&&x.image[0].isDataTexture,K=[];for(let pt=0;pt<6;pt++)!lt&&!R?K[pt]=M(x.image[pt],!0,s.maxCubemapSize):K[pt]=R?x.image[pt].image:x.image[pt],K[pt]=It(x,K[pt]);let W=K[0],ct=r.convert(x.format,x.colorSpace),rt=r.convert(x.type),at=T(x.internalFormat,ct,rt,x.normalized,x.colorSpace),At=x.isVideoTexture!==!0,Ht=ot.__version===void 0||nt===!0,st=Q.dataReady,Et=b(x,W);ie(i.TEXTURE_CUBE_MAP,x);let Vt;if(x.isDepthTexture){if(at=_(x.format===ci,x.type),Ht)if(At)e.texStorage2D(i.TEXTURE_CUBE_MAP,1,at,W.width,W.height);else for(let pt=0;pt<6;pt++)e.texImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+pt,0,at,W.width,W.height,0,ct,rt,null)}else if(lt){At&&Ht&&e.texStorage2D(i.TEXTURE_CUBE_MAP,Et,at,W.width,W.height);for(let pt=0;pt<6;pt++){Vt=K[pt].mipmaps;for(let se=0;se<Vt.length;se++){let Re=Vt[se];x.format!==cn?ct!==null?At?st&&e.compressedTexSubImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+pt,se,0,0,Re.width,Re.height,ct,Re.data):e.compressedTexImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+pt,se,at,Re.width,Re.height,0,Re.data):Nt("WebGLRenderer: Attempt to load unsupported compressed texture format in .setTextureCube()"):At?st&&e.texSubImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+pt,se,0,0,Re.width,Re.height,ct,rt,Re.data):e.texImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+pt,se,at,Re.width,Re.height,0,ct,rt,Re.data)}}}else{if(Vt=x.mipmaps,At&&Ht){Vt.length>0&&Et++;let pt=Ft(K[0]);e.texStorage2D(i.TEXTURE_CUBE_MAP,Et,at,pt.width,pt.height)}for(let pt=0;pt<6;pt++)if(R){At?st&&e.texSubImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+pt,0,0,0,K[pt].width,K[pt].height,ct,rt,K[pt].data):e.texImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+pt,0,at,K[pt].width,K[pt].height,0,ct,rt,K[pt].data);for(let se=0;se<Vt.length;se++){let ui=Vt[se].image[pt].image;At?st&&e.texSubImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+pt,se+1,0,0,ui.width,ui.height,ct,rt,ui.data):e.texImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+pt,se+1,at,ui.width,ui.height,0,ct,rt,ui.data)}}else{At?st&&e.texSubImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+pt,0,0,0,ct,rt,K[pt]):e.texImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+pt,0,at,ct,rt,K[pt]);for(let se=0;se<Vt.length;se++){let Re=Vt[se];At?st&&e.texSubImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+pt,se+1,0,0,ct,rt,Re.image[pt]):e.texImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+pt,se+1,at,ct,rt,Re.image[pt])}}}I(x)&&x.mipmapsAutoUpdate===!0&&w(i.TEXTURE_CUBE_MAP),ot.__version=Q.version,x.onUpdate&&x.onUpdate(x)}S.__version=x.version}function fe(S,x,F,nt,Q,ot){let ut=r.convert(F.format,F.colorSpace),q=r.convert(F.type),Z=T(F.internalFormat,ut,q,F.normalized,F.colorSpace),lt=n.get(x),R=n.get(F);if(R.__renderTarget=x,!lt.__hasExternalTextures){let K=Math.max(1,x.width>>ot),W=Math.max(1,x.height>>ot);Q===i.TEXTURE_3D||Q===i.TEXTURE_2D_ARRAY?e.texImage3D(Q,ot,Z,K,W,x.depth,0,ut,q,null):e.texImage2D(Q,ot,Z,K,W,0,ut,q,null)}e.bindFramebuffer(i.FRAMEBUFFER,S),ft(x)?a.framebufferTexture2DMultisampleEXT(i.FRAMEBUFFER,nt,Q,R.__webglTexture,0,ue(x)):(Q===i.TEXTURE_2D||Q>=i.TEXTURE_CUBE_MAP_POSITIVE_X&&Q<=i.TEXTURE_CUBE_MAP_NEGATIVE_Z)&&i.framebufferTexture2D(i.FRAMEBUFFER,nt,Q,R.__webglTexture,ot),e.bindFramebuffer(i.FRAMEBUFFER,null)}function Bn(S,x,F){if(i.bindRenderbuffer(i.RENDERBUFFER,S),x.depthBuffer){let nt=x.depthTexture,Q=nt&&nt.isDepthTexture?nt.type:null,ot=_(x.stencilBuffer,Q),ut=x.stencilBuffer?i.DEPTH_STENCIL_ATTACHMENT:i.DEPTH_ATTACHMENT;ft(x)?a.renderbufferStorageMultisampleEXT(i.RENDERBUFFER,ue(x),ot,x.width,x.height):F?i.renderbufferStorageMultisample(i.RENDERBUFFER,ue(x),ot,x.width,x.height):i.renderbufferStorage(i.RENDERBUFFER,ot,x.width,x.height),i.framebufferRenderbuffer(i.FRAMEBUFFER,ut,i.RENDERBUFFER,S)}else{let nt=x.textures;for(let Q=0;Q<nt.length;Q++){let ot=nt[Q],ut=r.convert(ot.format,ot.colorSpace),q=r.convert(ot.type),Z=T(ot.internalFormat,ut,q,ot.normalized,ot.colorSpace);ft(x)?a.renderbufferStorageMultisampleEXT(i.RENDERBUFFER,ue(x),Z,x.width,x.height):F?i.renderbufferStorageMultisample(i.RENDERBUFFER,ue(x),Z,x.width,x.height):i.renderbufferStorage(i.RENDERBUFFER,Z,x.width,x.height)}}i.bindRenderbuffer(i.RENDERBUFFER,null)}function Te(S,x,F){let nt=x.isWebGLCubeRenderTarget===!0;if(e.bindFramebuffer(i.FRAMEBUFFER,S),!(x.depthTexture&&x.depthTexture.isDepthTexture))throw new Error("THREE.WebGLTextures: renderTarget.depthTexture must be an instance of THREE.DepthTexture.");let Q=n.get(x.depthTexture);Q.__renderTarget=x;let ot=nt?x.depthTexture.image[0]:x.depthTexture.image;(!Q.__webglTexture||ot.width!==x.width||ot.height!==x.height)&&(ot.width=x.width,ot.height=x.height,x.depthTexture.needsUpdate=!0),nt?_t(x.depthTexture,0):gt(x.depthTexture,0);let ut=Q.__webglTexture,q=ue(x),Z=nt?i.TEXTURE_CUBE_MAP_POSITIVE_X+F:i.TEXTURE_2D,lt=x.depthTexture.format===ci?i.DEPTH_STENCIL_ATTACHMENT:i.DEPTH_ATTACHMENT;if(x.depthTexture.format===oi)ft(x)?a.framebufferTexture2DMultisampleEXT(i.FRAMEBUFFER,lt,Z,ut,0,q):i.framebufferTexture2D(i.FRAMEBUFFER,lt,Z,ut,0);else if(x.depthTexture.format===ci)ft(x)?a.framebufferTexture2DMultisampleEXT(i.FRAMEBUFFER,lt,Z,ut,0,q):i.framebufferTexture2D(i.FRAMEBUFFER,lt,Z,ut,0);else throw new Error("THREE.WebGLTextures: Unknown depthTexture format.")}function hn(S){let x=n.get(S),F=S.isWebGLCubeRenderTarget===!0;if(x.__boundDepthTexture!==S.depthTexture){let nt=S.depthTexture;if(x.__depthDisposeCallback&&x.__depthDisposeCallback(),nt){let Q=()=>{delete x.__boundDepthTexture,delete x.__depthDisposeCallback,nt.removeEventListener("dispose",Q)};nt.addEventListener("dispose",Q),x.__depthDisposeCallback=Q}x.__boundDepthTexture=nt}if(S.depthTexture&&!x.__autoAllocateDepthBuffer)if(F)for(let nt=0;nt<6;nt++)Te(x.__webglFramebuffer[nt],S,nt);else S.texture.mipmaps.length>0?Te(x.__webglFramebuffer[0],S,0):Te(x.__webglFramebuffer,S,0);else if(F){x.__webglDepthbuffer=[];for(let nt=0;nt<6;nt++)if(e.bindFramebuffer(i.FRAMEBUFFER,x.__webglFramebuffer[nt]),x.__webglDepthbuffer[nt]===void 0)x.__webglDepthbuffer[nt]=i.createRenderbuffer(),Bn(x.__webglDepthbuffer[nt],S,!1);else{let Q=S.stencilBuffer?i.DEPTH_STENCIL_ATTACHMENT:i.DEPTH_ATTACHMENT,ot=x.__webglDepthbuffer[nt];i.bindRenderbuffer(i.RENDERBUFFER,ot),i.framebufferRenderbuffer(i.FRAMEBUFFER,Q,i.RENDERBUFFER,ot)}}else if(S.texture.mipmaps.length>0?e.bindFramebuffer(i.FRAMEBUFFER,x.__webglFramebuffer[0]):e.bindFramebuffer(i.FRAMEBUFFER,x.__webglFramebuffer),x.__webglDepthbuffer===void 0)x.__webglDepthbuffer=i.createRenderbuffer(),Bn(x.__webglDepthbuffer,S,!1);else{let Q=S.stencilBuffer?i.DEPTH_STENCIL_ATTACHMENT:i.DEPTH_ATTACHMENT,ot=x.__webglDepthbuffer;i.bindRenderbuffer(i.RENDERBUFFER,ot),i.framebufferRenderbuffer(i.FRAMEBUFFER,Q,i.RENDERBUFFER,ot)}e.bindFramebuffer(i.FRAMEBUFFER,null)}function un(S,x,F){let nt=n.get(S);x!==void 0&&fe(nt.__webglFramebuffer,S,S.texture,i.COLOR_ATTACHMENT0,i.TEXTURE_2D,0),F!==void 0&&hn(S)}function dn(S){let x=S.texture,F=n.get(S),nt=n.get(x);S.addEventListener("dispose",z),k(S);let Q=S.textures,ot=S.isWebGLCubeRenderTarget===!0,ut=Q.length>1;if(ut||(nt.__webglTexture===void 0&&(nt.__webglTexture=i.createTexture()),nt.__version=x.version,o.memory.textures++),ot){F.__webglFramebuffer=[];for(let q=0;q<6;q++)if(x.mipmaps.length>0){F.__webglFramebuffer[q]=[];for(let Z=0;Z<x.mipmaps.length;Z++)F.__webglFramebuffer[q][Z]=i.createFramebuffer()}else F.__webglFramebuffer[q]=i.createFramebuffer()}else{if(x.mipmaps.length>0){F.__webglFramebuffer=[];for(let q=0;q<x.mipmaps.length;q++)F.__webglFramebuffer[q]=i.createFramebuffer()}else F.__webglFramebuffer=i.createFramebuffer();if(ut)for(let q=0,Z=Q.length;q<Z;q++){let lt=n.get(Q[q]);lt.__webglTexture===void 0&&(lt.__webglTexture=i.createTexture(),o.memory.textures++)}if(S.samples>0&&ft(S)===!1){F.__webglMultisampledFramebuffer=i.createFramebuffer(),F.__webglColorRenderbuffer=[],e.bindFramebuffer(i.FRAMEBUFFER,F.__webglMultisampledFramebuffer);for(let q=0;q<Q.length;q++){let Z=Q[q];F.__webglColorRenderbuffer[q]=i.createRenderbuffer(),i.bindRenderbuffer(i.RENDERBUFFER,F.__webglColorRenderbuffer[q]);let lt=r.convert(Z.format,Z.colorSpace),R=r.convert(Z.type),K=T(Z.internalFormat,lt,R,Z.normalized,Z.colorSpace,S.isXRRenderTarget===!0),W=ue(S);i.renderbufferStorageMultisample(i.RENDERBUFFER,W,K,S.width,S.height),i.framebufferRenderbuffer(i.FRAMEBUFFER,i.COLOR_ATTACHMENT0+q,i.RENDERBUFFER,F.__webglColorRenderbuffer[q])}i.bindRenderbuffer(i.RENDERBUFFER,null),S.depthBuffer&&(F.__webglDepthRenderbuffer=i.createRenderbuffer(),Bn(F.__webglDepthRenderbuffer,S,!0)),e.bindFramebuffer(i.FRAMEBUFFER,null)}}if(ot){e.bindTexture(i.TEXTURE_CUBE_MAP,nt.__webglTexture),ie(i.TEXTURE_CUBE_MAP,x);for(let q=0;q<6;q++)if(x.mipmaps.length>0)for(let Z=0;Z<x.mipmaps.length;Z++)fe(F.__webglFramebuffer[q][Z],S,x,i.COLOR_ATTACHMENT0,i.TEXTURE_CUBE_MAP_POSITIVE_X+q,Z);else fe(F.__webglFramebuffer[q],S,x,i.COLOR_ATTACHMENT0,i.TEXTURE_CUBE_MAP_POSITIVE_X+q,0);I(x)?w(i.TEXTURE_CUBE_MAP):x.mipmaps.length>0&&i.texParameteri(i.TEXTURE_CUBE_MAP,i.TEXTURE_MAX_LEVEL,x.mipmaps.length-1),e.unbindTexture()}else if(ut){for(let q=0,Z=Q.length;q<Z;q++){let lt=Q[q],R=n.get(lt),K=i.TEXTURE_2D;(S.isWebGL3DRenderTarget||S.isWebGLArrayRenderTarget)&&(K=S.isWebGL3DRenderTarget?i.TEXTURE_3D:i.TEXTURE_2D_ARRAY),e.bindTexture(K,R.__webglTexture),ie(K,lt),fe(F.__webglFramebuffer,S,lt,i.COLOR_ATTACHMENT0+q,K,0),I(lt)&&w(K)}e.unbindTexture()}else{let q=i.TEXTURE_2D;if((S.isWebGL3DRenderTarget||S.isWebGLArrayRenderTarget)&&(q=S.isWebGL3DRenderTarget?i.TEXTURE_3D:i.TEXTURE_2D_ARRAY),e.bindTexture(q,nt.__webglTexture),ie(q,x),x.mipmaps.length>0)for(let Z=0;Z<x.mipmaps.length;Z++)fe(F.__webglFramebuffer[Z],S,x,i.COLOR_ATTACHMENT0,q,Z);else fe(F.__webglFramebuffer,S,x,i.COLOR_ATTACHMENT0,q,0);I(x)?w(q):x.mipmaps.length>0&&i.texParameteri(q,i.TEXTURE_MAX_LEVEL,x.mipmaps.length-1),e.unbindTexture()}S.depthBuffer&&hn(S)}function D(S){let x=S.textures;for(let F=0,nt=x.length;F<nt;F++){let Q=x[F];if(I(Q)&&Q.mipmapsAutoUpdate===!0){let ot=C(S),ut=n.get(Q).__webglTexture;e.bindTexture(ot,ut),w(ot),e.unbindTexture()}}}let fn=[];function he(S){if(S.samples>0){if(ft(S)===!1){let x=S.textures,F=S.width,nt=S.height,Q=i.COLOR_BUFFER_BIT,ot=S.stencilBuffer?i.DEPTH_STENCIL_ATTACHMENT:i.DEPTH_ATTACHMENT,ut=n.get(S),q=x.length>1;if(q)for(let lt=0;lt<x.length;lt++)e.bindFramebuffer(i.FRAMEBUFFER,ut.__webglMultisampledFramebuffer),i.framebufferRenderbuffer(i.FRAMEBUFFER,i.COLOR_ATTACHMENT0+lt,i.RENDERBUFFER,null),e.bindFramebuffer(i.FRAMEBUFFER,ut.__webglFramebuffer),i.framebufferTexture2D(i.DRAW_FRAMEBUFFER,i.COLOR_ATTACHMENT0+lt,i.TEXTURE_2D,null,0);e.bindFramebuffer(i.READ_FRAMEBUFFER,ut.__webglMultisampledFramebuffer),S.texture.mipmaps.length>0?e.bindFramebuffer(i.DRAW_FRAMEBUFFER,ut.__webglFramebuffer[0]):e.bindFramebuffer(i.DRAW_FRAMEBUFFER,ut.__webglFramebuffer);for(let lt=0;lt<x.length;lt++){if(S.resolveDepthBuffer&&(S.depthBuffer&&(Q|=i.DEPTH_BUFFER_BIT),S.stencilBuffer&&S.resolveStencilBuffer&&(Q|=i.STENCIL_BUFFER_BIT)),q){i.framebufferRenderbuffer(i.READ_FRAMEBUFFER,i.COLOR_ATTACHMENT0,i.RENDERBUFFER,ut.__webglColorRenderbuffer[lt]);let R=n.get(x[lt]).__webglTexture;i.framebufferTexture2D(i.DRAW_FRAMEBUFFER,i.COLOR_ATTACHMENT0,i.TEXTURE_2D,R,0)}i.blitFramebuffer(0,0,F,nt,0,0,F,nt,Q,i.NEAREST),l===!0&&(fn.length=0,fn.push(i.COLOR_ATTACHMENT0+lt),S.depthBuffer&&S.storeMultisampledDepthBuffer===!1&&fn.push(ot),i.invalidateFramebuffer(i.READ_FRAMEBUFFER,fn))}if(e.bindFramebuffer(i.READ_FRAMEBUFFER,null),e.bindFramebuffer(i.DRAW_FRAMEBUFFER,null),q)for(let lt=0;lt<x.length;lt++){e.bindFramebuffer(i.FRAMEBUFFER,ut.__webglMultisampledFramebuffer),i.framebufferRenderbuffer(i.FRAMEBUFFER,i.COLOR_ATTACHMENT0+lt,i.RENDERBUFFER,ut.__webglColorRenderbuffer[lt]);let R=n.get(x[lt]).__webglTexture;e.bindFramebuffer(i.FRAMEBUFFER,ut.__webglFramebuffer),i.framebufferTexture2D(i.DRAW_FRAMEBUFFER,i.COLOR_ATTACHMENT0+lt,i.TEXTURE_2D,R,0)}e.bindFramebuffer(i.DRAW_FRAMEBUFFER,ut.__webglMultisampledFramebuffer)}else if(S.depthBuffer&&S.storeMultisampledDepthBuffer===!1&&l){let x=S.stencilBuffer?i.DEPTH_STENCIL_ATTACHMENT:i.DEPTH_ATTACHMENT;i.invalidateFramebuffer(i.DRAW_FRAMEBUFFER,[x])}}}function ue(S){return Math.min(s.maxSamples,S.samples)}function ft(S){let x=n.get(S);return S.samples>0&&t.has("WEBGL_multisampled_render_to_texture")===!0&&x.__useRenderToTexture!==!1}function Se(S){let x=o.render.frame;h.get(S)!==x&&(h.set(S,x),S.update())}function It(S,x){let F=S.colorSpace,nt=S.format,Q=S.type;return S.isCompressedTexture===!0||S.isVideoTexture===!0||F!==fr&&F!==hi&&(Zt.getTransfer(F)===ne?(nt!==cn||Q!==ln)&&Nt("WebGLTextures: sRGB encoded textures have to use RGBAFormat and UnsignedByteType."):Ut("WebGLTextures: Unsupported texture color space:",F)),x}function Ft(S){return typeof HTMLImageElement<"u"&&S instanceof HTMLImageElement?(c.width=S.naturalWidth||S.width,c.height=S.naturalHeight||S.height):typeof VideoFrame<"u"&&S instanceof VideoFrame?(c.width=S.displayWidth,c.height=S.displayHeight):(c.width=S.width,c.height=S.height),c}this.allocateTextureUnit=Bt,this.resetTextureUnits=tt,this.getTextureUnits=et,this.setTextureUnits=bt,this.setTexture2D=gt,this.setTexture2DArray=vt,this.setTexture3D=Ct,this.setTextureCube=_t,this.rebindTextures=un,this.setupRenderTarget=dn,this.updateRenderTargetMipmap=D,this.updateMultisampleRenderTarget=he,this.setupDepthRenderbuffer=hn,this.setupFrameBufferTexture=fe,this.useMultisampledRTT=ft,this.dispose=$}function db(i,t){function e(n,s=hi){let r,o=Zt.getTransfer(s);if(n===ln)return i.UNSIGNED_BYTE;if(n===Ua)return i.UNSIGNED_SHORT_4_4_4_4;if(n===Oa)return i.UNSIGNED_SHORT_5_5_5_1;if(n===wh)return i.UNSIGNED_INT_5_9_9_9_REV;if(n===Ah)return i.UNSIGNED_INT_10F_11F_11F_REV;if(n===Sh)return i.BYTE;if(n===bh)return i.SHORT;if(n===Fs)return i.UNSIGNED_SHORT;if(n===Da)return i.INT;if(n===Dn)return i.UNSIGNED_INT;if(n===Un)return i.FLOAT;if(n===On)return i.HALF_FLOAT;if(n===Eh)return i.ALPHA;if(n===Th)return i.RGB;if(n===cn)return i.RGBA;if(n===oi)return i.DEPTH_COMPONENT;if(n===ci)return i.DEPTH_STENCIL;if(n===Rh)return i.RED;if(n===Fa)return i.RED_INTEGER;if(n===Ri)return i.RG;if(n===Ba)return i.RG_INTEGER;if(n===ka)return i.RGBA_INTEGER;if(n===Ir||n===Pr||n===Lr||n===Nr)if(o===ne)if(r=t.get("WEBGL_compressed_texture_s3tc_srgb"),r!==null){if(n===Ir)return r.COMPRESSED_SRGB_S3TC_DXT1_EXT;if(n===Pr)return r.COMPRESSED_SRGB_ALPHA_S3TC_DXT1_EXT;if(n===Lr)return r.COMPRESSED_SRGB_ALPHA_S3TC_DXT3_EXT;if(n===Nr)return r.COMPRESSED_SRGB_ALPHA_S3TC_DXT5_EXT}else return null;else if(r=t.get("WEBGL_compressed_texture_s3tc"),r!==null){if(n===Ir)return r.COMPRESSED_RGB_S3TC_DXT1_EXT;if(n===Pr)return r.COMPRESSED_RGBA_S3TC_DXT1_EXT;if(n===Lr)return r.COMPRESSED_RGBA_S3TC_DXT3_EXT;if(n===Nr)return r.COMPRESSED_RGBA_S3TC_DXT5_EXT}else return null;if(n===za||n===Ga||n===Va||n===Ha)if(r=t.get("WEBGL_compressed_texture_pvrtc"),r!==null){if(n===za)return r.COMPRESSED_RGB_PVRTC_4BPPV1_IMG;if(n===Ga)return r.COMPRESSED_RGB_PVRTC_2BPPV1_IMG;if(n===Va)return r.COMPRESSED_RGBA_PVRTC_4BPPV1_IMG;if(n===Ha)return r.COMPRESSED_RGBA_PVRTC_2BPPV1_IMG}else return null;if(n===Wa||n===Xa||n===$a||n===qa||n===Ya||n===Dr||n===Za)if(r=t.get("WEBGL_compressed_texture_etc"),r!==null){if(n===Wa||n===Xa)return o===ne?r.COMPRESSED_SRGB8_ETC2:r.COMPRESSED_RGB8_ETC2;if(n===$a)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ETC2_EAC:r.COMPRESSED_RGBA8_ETC2_EAC;if(n===qa)return r.COMPRESSED_R11_EAC;if(n===Ya)return r.COMPRESSED_SIGNED_R11_EAC;if(n===Dr)return r.COMPRESSED_RG11_EAC;if(n===Za)return r.COMPRESSED_SIGNED_RG11_EAC}else return null;if(n===Ja||n===Ka||n===ja||n===Qa||n===tl||n===el||n===nl||n===il||n===sl||n===rl||n===ol||n===al||n===ll||n===cl)if(r=t.get("WEBGL_compressed_texture_astc"),r!==null){if(n===Ja)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_4x4_KHR:r.COMPRESSED_RGBA_ASTC_4x4_KHR;if(n===Ka)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_5x4_KHR:r.COMPRESSED_RGBA_ASTC_5x4_KHR;if(n===ja)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_5x5_KHR:r.COMPRESSED_RGBA_ASTC_5x5_KHR;if(n===Qa)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_6x5_KHR:r.COMPRESSED_RGBA_ASTC_6x5_KHR;if(n===tl)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_6x6_KHR:r.COMPRESSED_RGBA_ASTC_6x6_KHR;if(n===el)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_8x5_KHR:r.COMPRESSED_RGBA_ASTC_8x5_KHR;if(n===nl)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_8x6_KHR:r.COMPRESSED_RGBA_ASTC_8x6_KHR;if(n===il)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_8x8_KHR:r.COMPRESSED_RGBA_ASTC_8x8_KHR;if(n===sl)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_10x5_KHR:r.COMPRESSED_RGBA_ASTC_10x5_KHR;if(n===rl)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_10x6_KHR:r.COMPRESSED_RGBA_ASTC_10x6_KHR;if(n===ol)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_10x8_KHR:r.COMPRESSED_RGBA_ASTC_10x8_KHR;if(n===al)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_10x10_KHR:r.COMPRESSED_RGBA_ASTC_10x10_KHR;if(n===ll)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_12x10_KHR:r.COMPRESSED_RGBA_ASTC_12x10_KHR;if(n===cl)return o===ne?r.COMPRESSED_SRGB8_ALPHA8_ASTC_12x12_KHR:r.COMPRESSED_RGBA_ASTC_12x12_KHR}else return null;if(n===hl||n===ul||n===dl)if(r=t.get("EXT_texture_compression_bptc"),r!==null){if(n===hl)return o===ne?r.COMPRESSED_SRGB_ALPHA_BPTC_UNORM_EXT:r.COMPRESSED_RGBA_BPTC_UNORM_EXT;if(n===ul)return r.COMPRESSED_RGB_BPTC_SIGNED_FLOAT_EXT;if(n===dl)return r.COMPRESSED_RGB_BPTC_UNSIGNED_FLOAT_EXT}else return null;if(n===fl||n===pl||n===Ur||n===ml)if(r=t.get("EXT_texture_compression_rgtc"),r!==null){if(n===fl)return r.COMPRESSED_RED_RGTC1_EXT;if(n===pl)return r.COMPRESSED_SIGNED_RED_RGTC1_EXT;if(n===Ur)return r.COMPRESSED_RED_GREEN_RGTC2_EXT;if(n===ml)return r.COMPRESSED_SIGNED_RED_GREEN_RGTC2_EXT}else return null;return n===Yi?i.UNSIGNED_INT_24_8:i[n]!==void 0?i[n]:null}return{convert:e}}var fb=`
void main() {

	gl_Position = vec4( position, 1.0 );

}`,pb=`
uniform sampler2DArray depthColor;
uniform float depthWidth;
uniform float depthHeight;

void main() {

	vec2 coord = vec2( gl_FragCoord.x / depthWidth, gl_FragCoord.y / depthHeight );

	if ( coord.x >= 1.0 ) {

		gl_FragDepth = texture( depthColor, vec3( coord.x - 1.0, coord.y, 1 ) ).r;

	} else {

		gl_FragDepth = texture( depthColor, vec3( coord.x, coord.y, 0 ) ).r;

	}

}`,jh=class{constructor(){this.texture=null,this.mesh=null,this.depthNear=0,this.depthFar=0}init(t,e){if(this.texture===null){let n=new wr(t.texture);(t.depthNear!==e.depthNear||t.depthFar!==e.depthFar)&&(this.depthNear=t.depthNear,this.depthFar=t.depthFar),this.texture=n}}getMesh(t){if(this.texture!==null&&this.mesh===null){let e=t.cameras[0].viewport,n=new Wn({vertexShader:fb,fragmentShader:pb,uniforms:{depthColor:{value:this.texture},depthWidth:{value:e.z},depthHeight:{value:e.w}}});this.mesh=new Sn(new Ar(20,20),n)}return this.mesh}reset(){this.texture=null,this.mesh=null}getDepthTexture(){return this.texture}},Qh=class extends Vn{constructor(t,e){super();let n=this,s=null,r=1,o=null,a="local-floor",l=1,c=null,h=null,d=null,u=null,f=null,m=null,v=typeof XRWebGLBinding<"u",p=new jh,g={},M=e.getContextAttributes(),I=null,w=null,C=[],T=[],_=new te,b=null,k=null,N=new rn;N.viewport=new me;let U=new rn;U.viewport=new me;let z=[N,U],Y=new Ca,L=null,$=null;this.cameraAutoUpdate=!0,this.enabled=!1,this.isPresenting=!1,this.getController=function(J){let gt=C[J];return gt===void 0&&(gt=new Ts,C[J]=gt),gt.getTargetRaySpace()},this.getControllerGrip=function(J){let gt=C[J];return gt===void 0&&(gt=new Ts,C[J]=gt),gt.getGripSpace()},this.getHand=function(J){let gt=C[J];return gt===void 0&&(gt=new Ts,C[J]=gt),gt.getHandSpace()};function j(J){let gt=T.indexOf(J.inputSource);if(gt===-1)return;let vt=C[gt];vt!==void 0&&(vt.update(J.inputSource,J.frame,c||o),vt.dispatchEvent({type:J.type,data:J.inputSource}))}function H(){s.removeEventListener("select",j),s.removeEventListener("selectstart",j),s.removeEventListener("selectend",j),s.removeEventListener("squeeze",j),s.removeEventListener("squeezestart",j),s.removeEventListener("squeezeend",j),s.removeEventListener("end",H),s.removeEventListener("inputsourceschange",it);for(let J=0;J<C.length;J++){let gt=T[J];gt!==null&&(T[J]=null,C[J].disconnect(gt))}L=null,$=null,p.reset();for(let J in g)delete g[J];if(t.setRenderTarget(I),f=null,u=null,d=null,s=null,w=null,Bt.stop(),n.isPresenting=!1,t.setPixelRatio(b),t.setSize(_.width,_.height,!1),k!==null){let J=k.camera;J.fov=k.fov,J.zoom=k.zoom,J.updateProjectionMatrix(),k=null}n.dispatchEvent({type:"sessionend"})}this.setFramebufferScaleFactor=function(J){r=J,n.isPresenting===!0&&Nt("WebXRManager: Cannot change framebuffer scale while presenting.")},this.setReferenceSpaceType=function(J){a=J,n.isPresenting===!0&&Nt("WebXRManager: Cannot change reference space type while presenting.")},this.getReferenceSpace=function(){return c||o},this.setReferenceSpace=function(J){c=J},this.getBaseLayer=function(){return u!==null?u:f},this.getBinding=function(){return d===null&&v&&(d=new XRWebGLBinding(s,e)),d},this.getFrame=function(){return m},this.getSession=function(){return s},this.setSession=async function(J){if(s=J,s!==null){if(I=t.getRenderTarget(),s.addEventListener("select",j),s.addEventListener("selectstart",j),s.addEventListener("selectend",j),s.addEventListener("squeeze",j),s.addEventListener("squeezestart",j),s.addEventListener("squeezeend",j),s.addEventListener("end",H),s.addEventListener("inputsourceschange",it),M.xrCompatible!==!0&&await e.makeXRCompatible(),b=t.getPixelRatio(),t.getSize(_),v&&"createProjectionLayer"in XRWebGLBinding.prototype){let vt=null,Ct=null,_t=null;M.depth&&(_t=M.stencil?e.DEPTH24_STENCIL8:e.DEPTH_COMPONENT24,vt=M.stencil?ci:oi,Ct=M.stencil?Yi:Dn);let Gt={colorFormat:e.RGBA8,depthFormat:_t,scaleFactor:r};d=this.getBinding(),u=d.createProjectionLayer(Gt),s.updateRenderState({layers:[u]}),t.setPixelRatio(1),t.setSize(u.textureWidth,u.textureHeight,!1),w=new on(u.textureWidth,u.textureHeight,{format:cn,type:ln,depthTexture:new ai(u.textureWidth,u.textureHeight,Ct,void 0,void 0,void 0,void 0,void 0,void 0,vt),stencilBuffer:M.stencil,colorSpace:t.outputColorSpace,samples:M.antialias?4:0,resolveDepthBuffer:u.ignoreDepthValues===!1,resolveStencilBuffer:u.ignoreDepthValues===!1,storeMultisampledDepthBuffer:u.ignoreDepthValues===!1,storeMultisampledStencilBuffer:u.ignoreDepthValues===!1})}else{let vt={antialias:M.antialias,alpha:!0,depth:M.depth,stencil:M.stencil,framebufferScaleFactor:r};f=new XRWebGLLayer(s,e,vt),s.updateRenderState({baseLayer:f}),t.setPixelRatio(1),t.setSize(f.framebufferWidth,f.framebufferHeight,!1),w=new on(f.framebufferWidth,f.framebufferHeight,{format:cn,type:ln,colorSpace:t.outputColorSpace,stencilBuffer:M.stencil,resolveDepthBuffer:f.ignoreDepthValues===!1,resolveStencilBuffer:f.ignoreDepthValues===!1,storeMultisampledDepthBuffer:f.ignoreDepthValues===!1,storeMultisampledStencilBuffer:f.ignoreDepthValues===!1})}w.isXRRenderTarget=!0,this.setFoveation(l),c=null,o=await s.requestReferenceSpace(a),Bt.setContext(s),Bt.start(),n.isPresenting=!0,n.dispatchEvent({type:"sessionstart"})}},this.getEnvironmentBlendMode=function(){if(s!==null)return s.environmentBlendMode},this.getDepthTexture=function(){return p.getDepthTexture()};function it(J){for(let gt=0;gt<J.removed.length;gt++){let vt=J.removed[gt],Ct=T.indexOf(vt);Ct>=0&&(T[Ct]=null,C[Ct].disconnect(vt))}for(let gt=0;gt<J.added.length;gt++){let vt=J.added[gt],Ct=T.indexOf(vt);if(Ct===-1){for(let Gt=0;Gt<C.length;Gt++)if(Gt>=T.length){T.push(vt),Ct=Gt;break}else if(T[Gt]===null){T[Gt]=vt,Ct=Gt;break}if(Ct===-1)break}let _t=C[Ct];_t&&_t.connect(vt)}}function X(J,gt){gt===null?J.matrixWorld.copy(J.matrix):J.matrixWorld.multiplyMatrices(gt.matrixWorld,J.matrix),J.matrixWorldInverse.copy(J.matrixWorld).invert()}this.updateCamera=function(J){if(s===null)return;let gt=J.near,vt=J.far;p.texture!==null&&(p.depthNear>0&&(gt=p.depthNear),p.depthFar>0&&(vt=p.depthFar)),Y.near=U.near=N.near=gt,Y.far=U.far=N.far=vt,(L!==Y.near||$!==Y.far)&&(s.updateRenderState({depthNear:Y.near,depthFar:Y.far}),L=Y.near,$=Y.far),Y.layers.mask=J.layers.mask|6,N.layers.mask=Y.layers.mask&-5,U.layers.mask=Y.layers.mask&-3;let Ct=J.parent,_t=Y.cameras;X(Y,Ct);for(let Gt=0;Gt<_t.length;Gt++)X(_t[Gt],Ct);Y.projectionMatrix.copy(N.projectionMatrix),Y.projectionMatrixInverse.copy(N.projectionMatrixInverse),k===null&&J.isPerspectiveCamera&&(k={camera:J,fov:J.fov,zoom:J.zoom}),tt(J,Y,Ct)};function tt(J,gt,vt){vt===null?J.matrix.copy(gt.matrixWorld):(J.matrix.copy(vt.matrixWorld),J.matrix.invert(),J.matrix.multiply(gt.matrixWorld)),J.matrix.decompose(J.position,J.quaternion,J.scale),J.updateMatrixWorld(!0),J.projectionMatrix.copy(gt.projectionMatrix),J.projectionMatrixInverse.copy(gt.projectionMatrixInverse),J.isPerspectiveCamera&&(J.fov=ha*2*Math.atan(1/J.projectionMatrix.elements[5]),J.zoom=1)}this.getCamera=function(){return Y},this.getFoveation=function(){if(!(u===null&&f===null))return l},this.setFoveation=function(J){l=J,u!==null&&(u.fixedFoveation=J),f!==null&&f.fixedFoveation!==void 0&&(f.fixedFoveation=J)},this.hasDepthSensing=function(){return p.texture!==null},this.getDepthSensingMesh=function(){return p.getMesh(Y)},this.getCameraTexture=function(J){return g[J]};let et=null;function bt(J,gt){if(h=gt.getViewerPose(c||o),m=gt,h!==null){let vt=h.views;f!==null&&(t.setRenderTargetFramebuffer(w,f.framebuffer),t.setRenderTarget(w));let Ct=!1;vt.length!==Y.cameras.length&&(Y.cameras.length=0,Ct=!0);for(let Lt=0;Lt<vt.length;Lt++){let ie=vt[Lt],re=null;if(f!==null)re=f.getViewport(ie);else{let Ue=d.getViewSubImage(u,ie);re=Ue.viewport,Lt===0&&(t.setRenderTargetTextures(w,Ue.colorTexture,Ue.depthStencilTexture),t.setRenderTarget(w))}let $t=z[Lt];$t===void 0&&($t=new rn,$t.layers.enable(Lt),$t.viewport=new me,z[Lt]=$t),$t.matrix.fromArray(ie.transform.matrix),$t.matrix.decompose($t.position,$t.quaternion,$t.scale),$t.projectionMatrix.fromArray(ie.projectionMatrix),$t.projectionMatrixInverse.copy($t.projectionMatrix).invert(),$t.viewport.set(re.x,re.y,re.width,re.height),Lt===0&&(Y.matrix.copy($t.matrix),Y.matrix.decompose(Y.position,Y.quaternion,Y.scale)),Ct===!0&&Y.cameras.push($t)}let _t=s.enabledFeatures;if(_t&&_t.includes("depth-sensing")&&s.depthUsage=="gpu-optimized"&&v){d=n.getBinding();let Lt=d.getDepthInformation(vt[0]);Lt&&Lt.isValid&&Lt.texture&&p.init(Lt,s.renderState)}if(_t&&_t.includes("camera-access")&&v){t.state.unbindTexture(),d=n.getBinding();for(let Lt=0;Lt<vt.length;Lt++){let ie=vt[Lt].camera;if(ie){let re=g[ie];re||(re=new wr,g[ie]=re);let $t=d.getCameraImage(ie);re.sourceTexture=$t}}}}for(let vt=0;vt<C.length;vt++){let Ct=T[vt],_t=C[vt];Ct!==null&&_t!==void 0&&_t.update(Ct,gt,c||o)}et&&et(J,gt),gt.detectedPlanes&&n.dispatchEvent({type:"planesdetected",data:gt}),m=null}let Bt=new qm;Bt.setAnimationLoop(bt),this.setAnimationLoop=function(J){et=J},this.dispose=function(){}}},mb=new ge,ig=new Ot;ig.set(-1,0,0,0,1,0,0,0,1);function gb(i,t){function e(p,g){p.matrixAutoUpdate===!0&&p.updateMatrix(),g.value.copy(p.matrix)}function n(p,g){g.color.getRGB(p.fogColor.value,Uh(i)),g.isFog?(p.fogNear.value=g.near,p.fogFar.value=g.far):g.isFogExp2&&(p.fogDensity.value=g.density)}function s(p,g,M,I,w){g.isNodeMaterial?g.uniformsNeedUpdate=!1:g.isMeshBasicMaterial?r(p,g):g.isMeshLambertMaterial?(r(p,g),g.envMap&&(p.envMapIntensity.value=g.envMapIntensity)):g.isMeshToonMaterial?(r(p,g),d(p,g)):g.isMeshPhongMaterial?(r(p,g),h(p,g),g.envMap&&(p.envMapIntensity.value=g.envMapIntensity)):g.isMeshStandardMaterial?(r(p,g),u(p,g),g.isMeshPhysicalMaterial&&f(p,g,w)):g.isMeshMatcapMaterial?(r(p,g),m(p,g)):g.isMeshDepthMaterial?r(p,g):g.isMeshDistanceMaterial?(r(p,g),v(p,g)):g.isMeshNormalMaterial?r(p,g):g.isLineBasicMaterial?(o(p,g),g.isLineDashedMaterial&&a(p,g)):g.isPointsMaterial?l(p,g,M,I):g.isSpriteMaterial?c(p,g):g.isShadowMaterial?(p.color.value.copy(g.color),p.opacity.value=g.opacity):g.isShaderMaterial&&(g.uniformsNeedUpdate=!1)}function r(p,g){p.opacity.value=g.opacity,g.color&&p.diffuse.value.copy(g.color),g.emissive&&p.emissive.value.copy(g.emissive).multiplyScalar(g.emissiveIntensity),g.map&&(p.map.value=g.map,e(g.map,p.mapTransform)),g.alphaMap&&(p.alphaMap.value=g.alphaMap,e(g.alphaMap,p.alphaMapTransform)),g.bumpMap&&(p.bumpMap.value=g.bumpMap,e(g.bumpMap,p.bumpMapTransform),p.bumpScale.value=g.bumpScale,g.side===Ke&&(p.bumpScale.value*=-1)),g.normalMap&&(p.normalMap.value=g.normalMap,e(g.normalMap,p.normalMapTransform),p.normalScale.value.copy(g.normalScale),g.side===Ke&&p.normalScale.value.negate()),g.displacementMap&&(p.displacementMap.value=g.displacementMap,e(g.displacementMap,p.displacementMapTransform),p.displacementScale.value=g.displacementScale,p.displacementBias.value=g.displacementBias),g.emissiveMap&&(p.emissiveMap.value=g.emissiveMap,e(g.emissiveMap,p.emissiveMapTransform)),g.specularMap&&(p.specularMap.value=g.specularMap,e(g.specularMap,p.specularMapTransform)),g.alphaTest>0&&(p.alphaTest.value=g.alphaTest);let M=t.get(g),I=M.envMap,w=M.envMapRotation;I&&(p.envMap.value=I,p.envMapRotation.value.setFromMatrix4(mb.makeRotationFromEuler(w)).transpose(),I.isCubeTexture&&I.isRenderTargetTexture===!1&&p.envMapRotation.value.premultiply(ig),p.reflectivity.value=g.reflectivity,p.ior.value=g.ior,p.refractionRatio.value=g.refractionRatio),g.lightMap&&(p.lightMap.value=g.lightMap,p.lightMapIntensity.value=g.lightMapIntensity,e(g.lightMap,p.lightMapTransform)),g.aoMap&&(p.aoMap.value=g.aoMap,p.aoMapIntensity.value=g.aoMapIntensity,e(g.aoMap,p.aoMapTransform))}function o(p,g){p.diffuse.value.copy(g.color),p.opacity.value=g.opacity,g.map&&(p.map.value=g.map,e(g.map,p.mapTransform))}function a(p,g){p.dashSize.value=g.dashSize,p.totalSize.value=g.dashSize+g.gapSize,p.scale.value=g.scale}function l(p,g,M,I){p.diffuse.value.copy(g.color),p.opacity.value=g.opacity,p.size.value=g.size*M,p.scale.value=I*.5,g.map&&(p.map.value=g.map,e(g.map,p.uvTransform)),g.alphaMap&&(p.alphaMap.value=g.alphaMap,e(g.alphaMap,p.alphaMapTransform)),g.alphaTest>0&&(p.alphaTest.value=g.alphaTest)}function c(p,g){p.diffuse.value.copy(g.color),p.opacity.value=g.opacity,p.rotation.value=g.rotation,g.map&&(p.map.value=g.map,e(g.map,p.mapTransform)),g.alphaMap&&(p.alphaMap.value=g.alphaMap,e(g.alphaMap,p.alphaMapTransform)),g.alphaTest>0&&(p.alphaTest.value=g.alphaTest)}function h(p,g){p.specular.value.copy(g.specular),p.shininess.value=Math.max(g.shininess,1e-4)}function d(p,g){g.gradientMap&&(p.gradientMap.value=g.gradientMap)}function u(p,g){p.metalness.value=g.metalness,g.metalnessMap&&(p.metalnessMap.value=g.metalnessMap,e(g.metalnessMap,p.metalnessMapTransform)),p.roughness.value=g.roughness,g.roughnessMap&&(p.roughnessMap.value=g.roughnessMap,e(g.roughnessMap,p.roughnessMapTransform)),g.envMap&&(p.envMapIntensity.value=g.envMapIntensity)}function f(p,g,M){p.ior.value=g.ior,g.diffuseRoughness>0&&(p.diffuseRoughness.value=g.diffuseRoughness,g.diffuseRoughnessMap&&(p.diffuseRoughnessMap.value=g.diffuseRoughnessMap,e(g.diffuseRoughnessMap,p.diffuseRoughnessMapTransform))),g.sheen>0&&(p.sheenColor.value.copy(g.sheenColor).multiplyScalar(g.sheen),p.sheenRoughness.value=g.sheenRoughness,g.sheenColorMap&&(p.sheenColorMap.value=g.sheenColorMap,e(g.sheenColorMap,p.sheenColorMapTransform)),g.sheenRoughnessMap&&(p.sheenRoughnessMap.value=g.sheenRoughnessMap,e(g.sheenRoughnessMap,p.sheenRoughnessMapTransform))),g.clearcoat>0&&(p.clearcoat.value=g.clearcoat,p.clearcoatRoughness.value=g.clearcoatRoughness,g.clearcoatMap&&(p.clearcoatMap.value=g.clearcoatMap,e(g.clearcoatMap,p.clearcoatMapTransform)),g.clearcoatRoughnessMap&&(p.clearcoatRoughnessMap.value=g.clearcoatRoughnessMap,e(g.clearcoatRoughnessMap,p.clearcoatRoughnessMapTransform)),g.clearcoatNormalMap&&(p.clearcoatNormalMap.value=g.clearcoatNormalMap,e(g.clearcoatNormalMap,p.clearcoatNormalMapTransform),p.clearcoatNormalScale.value.copy(g.clearcoatNormalScale),g.side===Ke&&p.clearcoatNormalScale.value.negate())),g.dispersion>0&&(p.dispersion.value=g.dispersion),g.retroreflectivity>0&&(p.retroreflectivity.value=g.retroreflectivity),g.iridescence>0&&(p.iridescence.value=g.iridescence,p.iridescenceIOR.value=g.iridescenceIOR,p.iridescenceThicknessMinimum.value=g.iridescenceThicknessMinimum,p.iridescenceThicknessMaximum.value=g.iridescenceThicknessMaximum,g.iridescenceMap&&(p.iridescenceMap.value=g.iridescenceMap,e(g.iridescenceMap,p.iridescenceMapTransform)),g.iridescenceThicknessMap&&(p.iridescenceThicknessMap.value=g.iridescenceThicknessMap,e(g.iridescenceThicknessMap,p.iridescenceThicknessMapTransform))),g.transmission>0&&(p.transmission.value=g.transmission,p.transmissionSamplerMap.value=M.texture,p.transmissionSamplerSize.value.set(M.width,M.height),g.transmissionMap&&(p.transmissionMap.value=g.transmissionMap,e(g.transmissionMap,p.transmissionMapTransform)),p.thickness.value=g.thickness,g.thicknessMap&&(p.thicknessMap.value=g.thicknessMap,e(g.thicknessMap,p.thicknessMapTransform)),p.attenuationDistance.value=g.attenuationDistance,p.attenuationColor.value.copy(g.attenuationColor)),g.anisotropy>0&&(p.anisotropyVector.value.set(g.anisotropy*Math.cos(g.anisotropyRotation),g.anisotropy*Math.sin(g.anisotropyRotation)),g.anisotropyMap&&(p.anisotropyMap.value=g.anisotropyMap,e(g.anisotropyMap,p.anisotropyMapTransform))),p.specularIntensity.value=g.specularIntensity,p.specularColor.value.copy(g.specularColor),g.specularColorMap&&(p.specularColorMap.value=g.specularColorMap,e(g.specularColorMap,p.specularColorMapTransform)),g.specularIntensityMap&&(p.specularIntensityMap.value=g.specularIntensityMap,e(g.specularIntensityMap,p.specularIntensityMapTransform))}function m(p,g){g.matcap&&(p.matcap.value=g.matcap)}function v(p,g){let M=t.get(g).light;p.referencePosition.value.setFromMatrixPosition(M.matrixWorld),p.nearDistance.value=M.shadow.camera.near,p.farDistance.value=M.shadow.camera.far}return{refreshFogUniforms:n,refreshMaterialUniforms:s}}function _b(i,t,e,n){let s={},r={};function o(M,I){let w=I.program;n.uniformBlockBinding(M,w,s[M.id])}function a(M,I){let w=s[M.id];w===void 0&&(m(M),w=l(M),s[M.id]=w,M.addEventListener("dispose",p));let C=I.program;n.updateUBOMapping(M,C);let T=t.render.frame;r[M.id]!==T&&(c(M),r[M.id]=T)}function l(M){let I=i.createBuffer(),w=M.__size,C=M.usage;return i.bindBuffer(i.UNIFORM_BUFFER,I),i.bufferData(i.UNIFORM_BUFFER,w,C),i.bindBuffer(i.UNIFORM_BUFFER,null),I}function c(M){let I=s[M.id],w=M.uniforms,C=M.__cache;i.bindBuffer(i.UNIFORM_BUFFER,I);for(let T=0,_=w.length;T<_;T++){let b=w[T];if(Array.isArray(b))for(let k=0,N=b.length;k<N;k++)h(b[k],T,k,C);else h(b,T,0,C)}i.bindBuffer(i.UNIFORM_BUFFER,null)}function h(M,I,w,C){if(u(M,I,w,C)===!0){let T=M.__offset,_=M.value;if(Array.isArray(_)){let b=0;for(let k=0;k<_.length;k++){let N=_[k],U=v(N,!0);d(N,M.__data,b),b+=U.storage/Float32Array.BYTES_PER_ELEMENT}}else d(_,M.__data,0);i.bufferSubData(i.UNIFORM_BUFFER,T,M.__data)}}function d(M,I,w){typeof M=="number"||typeof M=="boolean"?I[w]=M:M.isMatrix3?(I[w]=M.elements[0],I[w+1]=M.elements[1],I[w+2]=M.elements[2],I[w+3]=0,I[w+4]=M.elements[3],I[w+5]=M.elements[4],I[w+6]=M.elements[5],I[w+7]=0,I[w+8]=M.elements[6],I[w+9]=M.elements[7],I[w+10]=M.elements[8],I[w+11]=0):ArrayBuffer.isView(M)?I.set(M.subarray(0,I.length-w),w):M.toArray(I,w)}function u(M,I,w,C){let T=M.value,_=I+"_"+w;if(Array.isArray(T)){C[_]===void 0&&(C[_]=[]);let b=C[_],k=!1;for(let N=0;N<T.length;N++)f(T[N],b,N)===!0&&(k=!0);return k}return f(T,C,_)}function f(M,I,w){if(I[w]===void 0)return typeof M=="number"||typeof M=="boolean"?I[w]=M:ArrayBuffer.isView(M)?I[w]=M.slice():I[w]=M.clone(),!0;{let C=I[w];if(typeof M=="number"||typeof M=="boolean"){if(C!==M)return I[w]=M,!0}else{if(ArrayBuffer.isView(M))return!0;if(C.equals(M)===!1)return C.copy(M),!0}}return!1}function m(M){let I=M.uniforms,w=0,C=16;for(let _=0,b=I.length;_<b;_++){let k=Array.isArray(I[_])?I[_]:[I[_]];for(let N=0,U=k.length;N<U;N++){let z=k[N],Y=Array.isArray(z.value)?z.value:[z.value],L=Array.isArray(I[_])||Array.isArray(z.value),$=w;for(let H=0,it=Y.length;H<it;H++){let X=Y[H],tt=v(X,L),et=w%C,bt=et%tt.boundary,Bt=et+bt;w+=bt,Bt!==0&&C-Bt<tt.storage&&(w+=C-Bt),H===0&&($=w),w+=tt.storage}let j=z.type==="int"?Int32Array:z.type==="uint"?Uint32Array:Float32Array;z.__data=new j((w-$)/Float32Array.BYTES_PER_ELEMENT),z.__offset=$}}let T=w%C;return T>0&&(w+=C-T),M.__size=w,M.__cache={},this}function v(M,I){let w={boundary:0,storage:0};return typeof M=="number"||typeof M=="boolean"?(w.boundary=4,w.storage=4):M.isVector2?(w.boundary=8,w.storage=8):M.isVector3||M.isColor?(w.boundary=16,w.storage=12):M.isVector4?(w.boundary=16,w.storage=16):M.isMatrix3?(w.boundary=16,w.storage=48):M.isMatrix4?(w.boundary=16,w.storage=64):M.isTexture?Nt("WebGLRenderer: Texture samplers can not be part of an uniforms group."):ArrayBuffer.isView(M)?(w.boundary=16,w.storage=M.byteLength):Nt("WebGLRenderer: Unsupported uniform value type.",M),I===!0&&(w.boundary=16,w.storage=Math.ceil(w.storage/16)*16),w}function p(M){let I=M.target;I.removeEventListener("dispose",p),i.deleteBuffer(s[I.id]),delete s[I.id],delete r[I.id]}function g(){for(let M in s)i.deleteBuffer(s[M]);s={},r={}}return{bind:o,update:a,dispose:g}}var xb=new Uint16Array([12469,15057,12620,14925,13266,14620,13807,14376,14323,13990,14545,13625,14713,13328,14840,12882,14931,12528,14996,12233,15039,11829,15066,11525,15080,11295,15085,10976,15082,10705,15073,10495,13880,14564,13898,14542,13977,14430,14158,14124,14393,13732,14556,13410,14702,12996,14814,12596,14891,12291,14937,11834,14957,11489,14958,11194,14943,10803,14921,10506,14893,10278,14858,9960,14484,14039,14487,14025,14499,13941,14524,13740,14574,13468,14654,13106,14743,12678,14818,12344,14867,11893,14889,11509,14893,11180,14881,10751,14852,10428,14812,10128,14765,9754,14712,9466,14764,13480,14764,13475,14766,13440,14766,13347,14769,13070,14786,12713,14816,12387,14844,11957,14860,11549,14868,11215,14855,10751,14825,10403,14782,10044,14729,9651,14666,9352,14599,9029,14967,12835,14966,12831,14963,12804,14954,12723,14936,12564,14917,12347,14900,11958,14886,11569,14878,11247,14859,10765,14828,10401,14784,10011,14727,9600,14660,9289,14586,8893,14508,8533,15111,12234,15110,12234,15104,12216,15092,12156,15067,12010,15028,11776,14981,11500,14942,11205,14902,10752,14861,10393,14812,9991,14752,9570,14682,9252,14603,8808,14519,8445,14431,8145,15209,11449,15208,11451,15202,11451,15190,11438,15163,11384,15117,11274,15055,10979,14994,10648,14932,10343,14871,9936,14803,9532,14729,9218,14645,8742,14556,8381,14461,8020,14365,7603,15273,10603,15272,10607,15267,10619,15256,10631,15231,10614,15182,10535,15118,10389,15042,10167,14963,9787,14883,9447,14800,9115,14710,8665,14615,8318,14514,7911,14411,7507,14279,7198,15314,9675,15313,9683,15309,9712,15298,9759,15277,9797,15229,9773,15166,9668,15084,9487,14995,9274,14898,8910,14800,8539,14697,8234,14590,7790,14479,7409,14367,7067,14178,6621,15337,8619,15337,8631,15333,8677,15325,8769,15305,8871,15264,8940,15202,8909,15119,8775,15022,8565,14916,8328,14804,8009,14688,7614,14569,7287,14448,6888,14321,6483,14088,6171,15350,7402,15350,7419,15347,7480,15340,7613,15322,7804,15287,7973,15229,8057,15148,8012,15046,7846,14933,7611,14810,7357,14682,7069,14552,6656,14421,6316,14251,5948,14007,5528,15356,5942,15356,5977,15353,6119,15348,6294,15332,6551,15302,6824,15249,7044,15171,7122,15070,7050,14949,6861,14818,6611,14679,6349,14538,6067,14398,5651,14189,5311,13935,4958,15359,4123,15359,4153,15356,4296,15353,4646,15338,5160,15311,5508,15263,5829,15188,6042,15088,6094,14966,6001,14826,5796,14678,5543,14527,5287,14377,4985,14133,4586,13869,4257,15360,1563,15360,1642,15358,2076,15354,2636,15341,3350,15317,4019,15273,4429,15203,4732,15105,4911,14981,4932,14836,4818,14679,4621,14517,4386,14359,4156,14083,3795,13808,3437,15360,122,15360,137,15358,285,15355,636,15344,1274,15322,2177,15281,2765,15215,3223,15120,3451,14995,3569,14846,3567,14681,3466,14511,3305,14344,3121,14037,2800,13753,2467,15360,0,15360,1,15359,21,15355,89,15346,253,15325,479,15287,796,15225,1148,15133,1492,15008,1749,14856,1882,14685,1886,14506,1783,14324,1608,13996,1398,13702,1183]),qn=null;function yb(){return qn===null&&(qn=new Cs(xb,16,16,Ri,On),qn.name="DFG_LUT",qn.minFilter=De,qn.magFilter=De,qn.wrapS=Gn,qn.wrapT=Gn,qn.generateMipmaps=!1,qn.needsUpdate=!0),qn}var yl=class{constructor(t={}){let{canvas:e=_m(),context:n=null,depth:s=!0,stencil:r=!1,alpha:o=!1,antialias:a=!1,premultipliedAlpha:l=!0,preserveDrawingBuffer:c=!1,powerPreference:h="default",failIfMajorPerformanceCaveat:d=!1,reversedDepthBuffer:u=!1,outputBufferType:f=ln}=t;this.isWebGLRenderer=!0;let m;if(n!==null){if(typeof WebGLRenderingContext<"u"&&n instanceof WebGLRenderingContext)throw new Error("THREE.WebGLRenderer: WebGL 1 is not supported since r163.");m=n.getContextAttributes().alpha}else m=o;let v=f,p=new Set([ka,Ba,Fa]),g=new Set([ln,Dn,Fs,Yi,Ua,Oa]),M=new Uint32Array(4),I=new Int32Array(4),w={textures:[],min:[],max:[],resolution:[]},C=null,T=null,_=[],b=[],k=null;this.domElement=e,this.debug={checkShaderErrors:!0,diagnostics:{keywords:!1},onShaderError:null},this.autoClear=!0,this.autoClearColor=!0,this.autoClearDepth=!0,this.autoClearStencil=!0,this.sortObjects=!0,this.clippingPlanes=[],this.localClippingEnabled=!1,this.toneMapping=$n,this.toneMappingExposure=1,this.transmissionResolutionScale=1;let N=this,U=!1,z=null,Y=null,L=null,$=null;this._outputColorSpace=sn;let j=0,H=0,it=null,X=-1,tt=null,et=new me,bt=new me,Bt=null,J=new Qt(0),gt=0,vt=e.width,Ct=e.height,_t=1,Gt=null,xe=null,Lt=new me(0,0,vt,Ct),ie=new me(0,0,vt,Ct),re=!1,$t=new Wi,Ue=new ga,Me=!1,je=!1,fe=new ge,Bn=new V,Te=new me,hn={background:null,fog:null,environment:null,overrideMaterial:null,isScene:!0},un=!1;function dn(){return it===null?_t:1}let D=n;function fn(y,P){return e.getContext(y,P)}let he,ue,ft,Se,It,Ft,S,x,F,nt,Q,ot,ut,q,Z,lt,R,K,W,ct,rt,at,At;try{let y={alpha:!0,depth:s,stencil:r,antialias:a,premultipliedAlpha:l,preserveDrawingBuffer:c,powerPreference:h,failIfMajorPerformanceCaveat:d};if("setAttribute"in e&&e.setAttribute("data-engine",`three.js r${"187"}`),e.addEventListener("webglcontextlost",Et,!1),e.addEventListener("webglcontextrestored",Vt,!1),e.addEventListener("webglcontextcreationerror",pt,!1),D===null){let P="webgl2";if(D=fn(P,y),D===null)throw fn(P)?new Error("THREE.WebGLRenderer: Error creating WebGL context with your selected attributes."):new Error("THREE.WebGLRenderer: Error creating WebGL context.")}Ht()}catch(y){throw e.removeEventListener("webglcontextlost",Et,!1),e.removeEventListener("webglcontextrestored",Vt,!1),e.removeEventListener("webglcontextcreationerror",pt,!1),Ut("WebGLRenderer: "+y.message),y}function Ht(){he=new IM(D),he.init(),rt=new db(D,he),ue=new yM(D,he,t,rt),ft=new hb(D,he),ue.reversedDepthBuffer&&u&&ft.buffers.depth.setReversed(!0),Y=D.createFramebuffer(),L=D.createFramebuffer(),$=D.createFramebuffer(),Se=new NM(D),It=new JS,Ft=new ub(D,he,ft,It,ue,rt,Se),S=new CM(N),x=new Ux(D),at=new _M(D,x),F=new PM(D,x,Se,at),nt=new UM(D,F,x,at,Se),K=new DM(D,ue,Ft),Z=new vM(It),Q=new ZS(N,S,he,ue,at,Z),ot=new gb(N,It),ut=new jS,q=new sb(he),R=new gM(N,S,ft,nt,m,l),lt=new cb(N,nt,ue),At=new _b(D,Se,ue,ft),W=new xM(D,he,Se),ct=new LM(D,he,Se),Se.programs=Q.programs,N.capabilities=ue,N.extensions=he,N.properties=It,N.renderLists=ut,N.shadowMap=lt,N.state=ft,N.info=Se}v!==ln&&(k=new FM(v,e.width,e.height,a,s,r));let st=new Qh(N,D);this.xr=st,this.getContext=function(){return D},this.getContextAttributes=function(){return D.getContextAttributes()},this.forceContextLoss=function(){let y=he.get("WEBGL_lose_context");y&&y.loseContext()},this.forceContextRestore=function(){let y=he.get("WEBGL_lose_context");y&&y.restoreContext()},this.getPixelRatio=function(){return _t},this.setPixelRatio=function(y){y!==void 0&&(_t=y,this.setSize(vt,Ct,!1))},this.getSize=function(y){return y.set(vt,Ct)},this.setSize=function(y,P,G=!0){if(st.isPresenting){Nt("WebGLRenderer: Can't change size while VR device is presenting.");return}vt=y,Ct=P,e.width=Math.floor(y*_t),e.height=Math.floor(P*_t),G===!0&&(e.style.width=y+"px",e.style.height=P+"px"),k!==null&&k.setSize(e.width,e.height),this.setViewport(0,0,y,P)},this.getDrawingBufferSize=function(y){return y.set(vt*_t,Ct*_t).floor()},this.setDrawingBufferSize=function(y,P,G){vt=y,Ct=P,_t=G,e.width=Math.floor(y*G),e.height=Math.floor(P*G),this.setViewport(0,0,y,P)},this.setEffects=function(y){if(v===ln){Ut("WebGLRenderer: setEffects() requires outputBufferType set to HalfFloatType or FloatType.");return}if(y){for(let P=0;P<y.length;P++)if(y[P].isOutputPass===!0){Nt("WebGLRenderer: OutputPass is not needed in setEffects(). Tone mapping and color space conversion are applied automatically.");break}}k.setEffects(y||[])},this.getCurrentViewport=function(y){return y.copy(et)},this.getViewport=function(y){return y.copy(Lt)},this.setViewport=function(y,P,G,O){y.isVector4?Lt.set(y.x,y.y,y.z,y.w):Lt.set(y,P,G,O),ft.viewport(et.copy(Lt).multiplyScalar(dn()).round())},this.getScissor=function(y){return y.copy(ie)},this.setScissor=function(y,P,G,O){y.isVector4?ie.set(y.x,y.y,y.z,y.w):ie.set(y,P,G,O),ft.scissor(bt.copy(ie).multiplyScalar(dn()).round())},this.getScissorTest=function(){return re},this.setScissorTest=function(y){ft.setScissorTest(re=y)},this.setOpaqueSort=function(y){Gt=y},this.setTransparentSort=function(y){xe=y},this.getClearColor=function(y){return y.copy(R.getClearColor())},this.setClearColor=function(){R.setClearColor(...arguments)},this.getClearAlpha=function(){return R.getClearAlpha()},this.setClearAlpha=function(){R.setClearAlpha(...arguments)},this.clear=function(y=!0,P=!0,G=!0){let O=0;if(y){let B=!1;if(it!==null){let dt=it.texture.format;B=p.has(dt)}if(B){let dt=it.texture.type,yt=g.has(dt),ht=R.getClearColor(),xt=R.getClearAlpha(),wt=ht.r,kt=ht.g,qt=ht.b;yt?(M[0]=wt,M[1]=kt,M[2]=qt,M[3]=xt,D.clearBufferuiv(D.COLOR,0,M)):(I[0]=wt,I[1]=kt,I[2]=qt,I[3]=xt,D.clearBufferiv(D.COLOR,0,I))}else O|=D.COLOR_BUFFER_BIT}P&&(O|=D.DEPTH_BUFFER_BIT,this.state.buffers.depth.setMask(!0)),G&&(O|=D.STENCIL_BUFFER_BIT,this.state.buffers.stencil.setMask(4294967295)),O!==0&&D.clear(O)},this.clearColor=function(){this.clear(!0,!1,!1)},this.clearDepth=function(){this.clear(!1,!0,!1)},this.clearStencil=function(){this.clear(!1,!1,!0)},this.setNodesHandler=function(y){y.setRenderer(this),z=y},this.dispose=function(){e.removeEventListener("webglcontextlost",Et,!1),e.removeEventListener("webglcontextrestored",Vt,!1),e.removeEventListener("webglcontextcreationerror",pt,!1),R.dispose(),ut.dispose(),q.dispose(),Ft.dispose(),It.dispose(),S.dispose(),nt.dispose(),F.dispose(),at.dispose(),At.dispose(),Q.dispose(),st.dispose(),st.removeEventListener("sessionstart",Iu),st.removeEventListener("sessionend",Pu),Ci.stop()};function Et(y){y.preventDefault(),Nh("WebGLRenderer: Context Lost."),U=!0}function Vt(){Nh("WebGLRenderer: Context Restored."),U=!1;let y=Se.autoReset,P=lt.enabled,G=lt.autoUpdate,O=lt.needsUpdate,B=lt.type;Ht(),Se.autoReset=y,lt.enabled=P,lt.autoUpdate=G,lt.needsUpdate=O,lt.type=B}function pt(y){Ut("WebGLRenderer: A WebGL context could not be created. Reason: ",y.statusMessage)}function se(y){let P=y.target;P.removeEventListener("dispose",se),Re(P)}function Re(y){ui(y),It.remove(y)}function ui(y){let P=It.get(y).programs;P!==void 0&&(P.forEach(function(G){Q.releaseProgram(G)}),y.isShaderMaterial&&Q.releaseShaderCache(y))}this.renderBufferDirect=function(y,P,G,O,B,dt){P===null&&(P=hn);let yt=B.isMesh&&B.matrixWorld.determinantAffine()<0,ht=i0(y,P,G,O,B);ft.setMaterial(O,yt);let xt=G.index,wt=1;if(O.wireframe===!0){if(xt=F.getWireframeAttribute(G),xt===void 0)return;wt=2}let kt=G.drawRange,qt=G.attributes.position,Mt=kt.start*wt,Yt=(kt.start+kt.count)*wt;dt!==null&&(Mt=Math.max(Mt,dt.start*wt),Yt=Math.min(Yt,(dt.start+dt.count)*wt)),xt!==null?(Mt=Math.max(Mt,0),Yt=Math.min(Yt,xt.count)):qt!=null&&(Mt=Math.max(Mt,0),Yt=Math.min(Yt,qt.count));let ye=Yt-Mt;if(ye<0||ye===1/0)return;at.setup(B,O,ht,G,xt);let ae,oe=W;if(xt!==null&&(ae=x.get(xt),oe=ct,oe.setIndex(ae)),B.isMesh)O.wireframe===!0?(ft.setLineWidth(O.wireframeLinewidth*dn()),oe.setMode(D.LINES)):oe.setMode(D.TRIANGLES);else if(B.isLine){let ze=O.linewidth;ze===void 0&&(ze=1),ft.setLineWidth(ze*dn()),B.isLineSegments?oe.setMode(D.LINES):B.isLineLoop?oe.setMode(D.LINE_LOOP):oe.setMode(D.LINE_STRIP)}else B.isPoints?oe.setMode(D.POINTS):B.isSprite&&oe.setMode(D.TRIANGLES);if(B.isBatchedMesh)if(he.get("WEBGL_multi_draw"))oe.renderMultiDraw(B._multiDrawStarts,B._multiDrawCounts,B._multiDrawCount);else{let ze=B._multiDrawStarts,St=B._multiDrawCounts,$e=B._multiDrawCount,ee=xt?x.get(xt).bytesPerElement:1,Ii=It.get(O).currentProgram.getUniforms();for(let Ge=0;Ge<$e;Ge++)Ii.setValue(D,"_gl_DrawID",Ge),oe.render(ze[Ge]/ee,St[Ge])}else if(B.isInstancedMesh)oe.renderInstances(Mt,ye,B.count);else if(G.isInstancedBufferGeometry){let ze=G._maxInstanceCount!==void 0?G._maxInstanceCount:1/0,St=Math.min(G.instanceCount,ze);oe.renderInstances(Mt,ye,St)}else oe.render(Mt,ye)};function Cu(y,P,G,O){z!==null&&y.isNodeMaterial&&z.setObject(O,y),Me===!0&&Z.setState(y,G,!1),y.transparent===!0&&y.side===bn&&y.forceSinglePass===!1?(y.side=Ke,y.needsUpdate=!0,Hs(y,P,O),y.side=Xn,y.needsUpdate=!0,Hs(y,P,O),y.side=bn):Hs(y,P,O)}this.compile=function(y,P,G=null){G===null&&(G=y),z!==null&&z.renderStart(y,P,G),T=q.get(G),T.init(P),b.push(T),G.traverseVisible(function(B){B.isLight&&B.layers.test(P.layers)&&(T.pushLight(B),B.castShadow&&T.pushShadow(B))}),y!==G&&y.traverseVisible(function(B){B.isLight&&B.layers.test(P.layers)&&(T.pushLight(B),B.castShadow&&T.pushShadow(B))}),T.setupLights(),z!==null&&z.updateLights(T.state.lightsArray),je=this.localClippingEnabled,Me=Z.init(this.clippingPlanes,je),Me===!0&&Z.setGlobalState(this.clippingPlanes,P),z!==null&&lt.render(T.state.shadowsArray,G,P);let O=new Set;return y.traverse(function(B){if(!(B.isMesh||B.isPoints||B.isLine||B.isSprite))return;let dt=B.material;if(dt)if(Array.isArray(dt))for(let yt=0;yt<dt.length;yt++){let ht=dt[yt];Cu(ht,G,P,B),O.add(ht)}else Cu(dt,G,P,B),O.add(dt)}),T=b.pop(),z!==null&&z.renderEnd(),O},this.compileAsync=function(y,P,G=null){let O=this.compile(y,P,G);return new Promise(B=>{function dt(){if(O.forEach(function(yt){let xt=It.get(yt).currentProgram;(xt===void 0||xt.isReady())&&O.delete(yt)}),O.size===0){B(y);return}setTimeout(dt,10)}he.get("KHR_parallel_shader_compile")!==null?dt():setTimeout(dt,10)})};let Wl=null;function e0(y){Wl&&Wl(y)}function Iu(){Ci.stop()}function Pu(){Ci.start()}let Ci=new qm;Ci.setAnimationLoop(e0),typeof self<"u"&&Ci.setContext(self),this.setAnimationLoop=function(y){Wl=y,st.setAnimationLoop(y),y===null?Ci.stop():Ci.start()},st.addEventListener("sessionstart",Iu),st.addEventListener("sessionend",Pu),this.render=function(y,P){if(P!==void 0&&P.isCamera!==!0){Ut("WebGLRenderer.render: camera is not an instance of THREE.Camera.");return}if(U===!0)return;z!==null&&z.renderStart(y,P);let G=st.enabled===!0&&st.isPresenting===!0,O=k!==null&&(it===null||G)&&k.begin(N,it);if(y.matrixWorldAutoUpdate===!0&&y.updateMatrixWorld(),P.parent===null&&P.matrixWorldAutoUpdate===!0&&P.updateMatrixWorld(),st.enabled===!0&&st.isPresenting===!0&&(k===null||k.isCompositing()===!1)&&(st.cameraAutoUpdate===!0&&st.updateCamera(P),P=st.getCamera()),y.isScene===!0&&y.onBeforeRender(N,y,P,it),T=q.get(y,b.length),T.init(P),T.state.textureUnits=Ft.getTextureUnits(),b.push(T),fe.multiplyMatrices(P.projectionMatrix,P.matrixWorldInverse),P.isArrayCamera?Ue.setFromArrayCamera(P):$t.setFromProjectionMatrix(fe,yn,P.reversedDepth),je=this.localClippingEnabled,Me=Z.init(this.clippingPlanes,je),C=ut.get(y,_.length),C.init(),_.push(C),this.info.render.frame++,st.enabled===!0&&st.isPresenting===!0){let yt=N.xr.getDepthSensingMesh();yt!==null&&Xl(yt,P,-1/0,N.sortObjects)}Xl(y,P,0,N.sortObjects),C.finish(),z!==null&&z.updateLights(T.state.lightsArray),N.sortObjects===!0&&C.sort(Gt,xe),un=st.enabled===!1||st.isPresenting===!1||st.hasDepthSensing()===!1,un&&R.addToRenderList(C,y),this.info.autoReset===!0&&this.info.reset(),Me===!0&&Z.beginShadows();let B=T.state.shadowsArray;if(lt.render(B,y,P),Me===!0&&Z.endShadows(),(O&&k.hasRenderPass())===!1){let yt=C.opaque,ht=C.transmissive;if(T.setupLights(),P.isArrayCamera){let xt=P.cameras;if(ht.length>0)for(let wt=0,kt=xt.length;wt<kt;wt++){let qt=xt[wt];Nu(yt,ht,y,qt)}un&&R.render(y);for(let wt=0,kt=xt.length;wt<kt;wt++){let qt=xt[wt];Lu(C,y,qt,qt.viewport)}}else ht.length>0&&Nu(yt,ht,y,P),un&&R.render(y),Lu(C,y,P)}it!==null&&H===0&&(Ft.updateMultisampleRenderTarget(it),Ft.updateRenderTargetMipmap(it)),O&&k.end(N),y.isScene===!0&&y.onAfterRender(N,y,P),at.resetDefaultState(),X=-1,tt=null,b.pop(),b.length>0?(T=b[b.length-1],Ft.setTextureUnits(T.state.textureUnits),Me===!0&&Z.setGlobalState(N.clippingPlanes,T.state.camera)):T=null,_.pop(),_.length>0?C=_[_.length-1]:C=null,z!==null&&z.renderEnd()};function Xl(y,P,G,O){if(y.visible===!1)return;if(y.layers.test(P.layers)){if(y.isGroup)G=y.renderOrder;else if(y.isLOD)y.autoUpdate===!0&&y.update(P);else if(y.isLight)T.pushLight(y),y.castShadow&&T.pushShadow(y);else if(y.isSprite){let yt=P.isArrayCamera?Ue:$t;if(!y.frustumCulled||y.intersectsFrustum(yt)){O&&Te.setFromMatrixPosition(y.matrixWorld).applyMatrix4(fe);let ht=nt.update(y),xt=y.material;xt.visible&&C.push(y,ht,xt,G,Te.z,null,P)}}else if(y.isMesh||y.isLine||y.isPoints){let yt=P.isArrayCamera?Ue:$t;if(!y.frustumCulled||y.intersectsFrustum(yt)){let ht=nt.update(y),xt=y.material;if(O&&(y.boundingSphere!==void 0?(y.boundingSphere===null&&y.computeBoundingSphere(),Te.copy(y.boundingSphere.center)):(ht.boundingSphere===null&&ht.computeBoundingSphere(),Te.copy(ht.boundingSphere.center)),Te.applyMatrix4(y.matrixWorld).applyMatrix4(fe)),Array.isArray(xt)){let wt=ht.groups;for(let kt=0,qt=wt.length;kt<qt;kt++){let Mt=wt[kt],Yt=xt[Mt.materialIndex];Yt&&Yt.visible&&C.push(y,ht,Yt,G,Te.z,Mt,P)}}else xt.visible&&C.push(y,ht,xt,G,Te.z,null,P)}}}let dt=y.children;for(let yt=0,ht=dt.length;yt<ht;yt++)Xl(dt[yt],P,G,O)}function Lu(y,P,G,O){let{opaque:B,transmissive:dt,transparent:yt}=y;T.setupLightsView(G),Me===!0&&Z.setGlobalState(N.clippingPlanes,G),O&&ft.viewport(et.copy(O)),B.length>0&&qr(B,P,G),dt.length>0&&qr(dt,P,G),yt.length>0&&qr(yt,P,G),ft.buffers.depth.setTest(!0),ft.buffers.depth.setMask(!0),ft.buffers.color.setMask(!0),ft.setPolygonOffset(!1)}function Nu(y,P,G,O){if((G.isScene===!0?G.overrideMaterial:null)!==null)return;if(T.state.transmissionRenderTarget[O.id]===void 0){let Mt=he.has("EXT_color_buffer_half_float")||he.has("EXT_color_buffer_float");T.state.transmissionRenderTarget[O.id]=new on(1,1,{generateMipmaps:!0,type:Mt?On:ln,minFilter:li,samples:Math.max(4,ue.samples),stencilBuffer:r,resolveDepthBuffer:!1,resolveStencilBuffer:!1,storeMultisampledDepthBuffer:!1,storeMultisampledStencilBuffer:!1,colorSpace:Zt.workingColorSpace})}let dt=T.state.transmissionRenderTarget[O.id],yt=O.viewport||et;dt.setSize(yt.z*N.transmissionResolutionScale,yt.w*N.transmissionResolutionScale);let ht=N.getRenderTarget(),xt=N.getActiveCubeFace(),wt=N.getActiveMipmapLevel();N.setRenderTarget(dt),N.getClearColor(J),gt=N.getClearAlpha(),gt<1&&N.setClearColor(16777215,.5),N.clear(),un&&R.render(G);let kt=N.toneMapping;N.toneMapping=$n;let qt=O.viewport;if(O.viewport!==void 0&&(O.viewport=void 0),T.setupLightsView(O),Me===!0&&Z.setGlobalState(N.clippingPlanes,O),qr(y,G,O),Ft.updateMultisampleRenderTarget(dt),Ft.updateRenderTargetMipmap(dt),he.has("WEBGL_multisampled_render_to_texture")===!1){let Mt=!1;for(let Yt=0,ye=P.length;Yt<ye;Yt++){let ae=P[Yt],{object:oe,geometry:ze,material:St,group:$e}=ae;if(St.side===bn&&oe.layers.test(O.layers)){let ee=St.side;St.side=Ke,St.needsUpdate=!0,Du(oe,G,O,ze,St,$e),St.side=ee,St.needsUpdate=!0,Mt=!0}}Mt===!0&&(Ft.updateMultisampleRenderTarget(dt),Ft.updateRenderTargetMipmap(dt))}N.setRenderTarget(ht,xt,wt),N.setClearColor(J,gt),qt!==void 0&&(O.viewport=qt),N.toneMapping=kt}function qr(y,P,G){let O=P.isScene===!0?P.overrideMaterial:null;for(let B=0,dt=y.length;B<dt;B++){let yt=y[B],{object:ht,geometry:xt,group:wt}=yt,kt=yt.material;kt.allowOverride===!0&&O!==null&&(kt=O),ht.layers.test(G.layers)&&Du(ht,P,G,xt,kt,wt)}}function Du(y,P,G,O,B,dt){z!==null&&B.isNodeMaterial&&z.setObject(y,B),y.onBeforeRender(N,P,G,O,B,dt),y.modelViewMatrix.multiplyMatrices(G.matrixWorldInverse,y.matrixWorld),y.normalMatrix.getNormalMatrix(y.modelViewMatrix),B.onBeforeRender(N,P,G,O,y,dt),B.transparent===!0&&B.side===bn&&B.forceSinglePass===!1?(B.side=Ke,B.needsUpdate=!0,N.renderBufferDirect(G,P,O,B,y,dt),B.side=Xn,B.needsUpdate=!0,N.renderBufferDirect(G,P,O,B,y,dt),B.side=bn):N.renderBufferDirect(G,P,O,B,y,dt),y.onAfterRender(N,P,G,O,B,dt)}function Uu(y){let P=0;for(let G of y)G.texture!==null&&P++;return P}function Hs(y,P,G){P.isScene!==!0&&(P=hn);let O=It.get(y),B=T.state.lights,dt=T.state.shadowsArray,yt=B.state.version,ht=Q.getParameters(y,B.state,dt,P,G,T.state.lightProbeGridArray),xt=Q.getProgramCacheKey(ht),wt=O.programs;O.environment=y.isMeshStandardMaterial||y.isMeshLambertMaterial||y.isMeshPhongMaterial?P.environment:null,O.fog=P.fog;let kt=y.isMeshStandardMaterial||y.isMeshLambertMaterial&&!y.envMap||y.isMeshPhongMaterial&&!y.envMap;O.envMap=S.get(y.envMap||O.environment,kt),O.envMapRotation=O.environment!==null&&y.envMap===null?P.environmentRotation:y.envMapRotation,wt===void 0&&(y.addEventListener("dispose",se),wt=new Map,O.programs=wt,O.programVariants=new Map);let qt=wt.get(xt);if(qt!==void 0){if(O.currentProgram===qt&&O.lightsStateVersion===yt)return Fu(y,ht),qt}else ht.uniforms=Q.getUniforms(y),z!==null&&y.isNodeMaterial&&z.build(y,G,ht),y.onBeforeCompile(ht,N),qt=Q.acquireProgram(ht,xt),wt.set(xt,qt),O.uniforms=ht.uniforms;let Mt=O.uniforms;return(!y.isShaderMaterial&&!y.isRawShaderMaterial||y.clipping===!0)&&(Mt.clippingPlanes=Z.uniform),Fu(y,ht),O.needsLights=r0(y),O.lightsStateVersion=yt,O.needsLights&&(Mt.ambientLightColor.value=B.state.ambient,Mt.lightProbe.value=B.state.probe,Mt.sunLights.value=B.state.sun,Mt.sunLightShadows.value=B.state.sunShadow,Mt.directionalLights.value=B.state.directional,Mt.directionalLightShadows.value=B.state.directionalShadow,Mt.spotLights.value=B.state.spot,Mt.spotLightShadows.value=B.state.spotShadow,Mt.rectAreaLights.value=B.state.rectArea,Mt.ltc_1.value=B.state.rectAreaLTC1,Mt.ltc_2.value=B.state.rectAreaLTC2,Mt.pointLights.value=B.state.point,Mt.pointLightShadows.value=B.state.pointShadow,Mt.hemisphereLights.value=B.state.hemi,Mt.sunShadowMatrix.value=B.state.sunShadowMatrix,Mt.sunShadowCascade.value=B.state.sunShadowCascade,Mt.directionalShadowMatrix.value=B.state.directionalShadowMatrix,Mt.spotLightMatrix.value=B.state.spotLightMatrix,Mt.spotLightMap.value=B.state.spotLightMap,Mt.pointShadowMatrix.value=B.state.pointShadowMatrix),O.numLightProbeGrids=Uu(T.state.lightProbeGridArray),O.currentProgram=qt,O.uniformsList=null,qt}function n0(y,P,G,O,B){let dt=It.get(y),yt=dt.currentProgram.id+","+O+","+B,ht=dt.programVariants.get(yt);return ht===void 0?(ht=Hs(y,P,G),dt.programVariants.set(yt,ht)):(dt.currentProgram=ht,dt.uniformsList=null,dt.outputColorSpace=O,dt.toneMapping=B),ht}function Ou(y){if(y.uniformsList===null){let P=y.currentProgram.getUniforms();y.uniformsList=Bs.seqWithValue(P.seq,y.uniforms)}return y.uniformsList}function Fu(y,P){let G=It.get(y);G.outputColorSpace=P.outputColorSpace,G.batching=P.batching,G.batchingColor=P.batchingColor,G.instancing=P.instancing,G.instancingColor=P.instancingColor,G.instancingMorph=P.instancingMorph,G.skinning=P.skinning,G.morphTargets=P.morphTargets,G.morphNormals=P.morphNormals,G.morphColors=P.morphColors,G.morphTargetsCount=P.morphTargetsCount,G.numClippingPlanes=P.numClippingPlanes,G.numIntersection=P.numClipIntersection,G.vertexAlphas=P.vertexAlphas,G.vertexTangents=P.vertexTangents,G.toneMapping=P.toneMapping}function i0(y,P,G,O,B){P.isScene!==!0&&(P=hn),Ft.resetTextureUnits();let dt=P.fog,yt=O.isMeshStandardMaterial||O.isMeshLambertMaterial||O.isMeshPhongMaterial?P.environment:null,ht=it===null?N.outputColorSpace:it.isXRRenderTarget===!0?it.texture.colorSpace:Zt.workingColorSpace,xt=O.isMeshStandardMaterial||O.isMeshLambertMaterial&&!O.envMap||O.isMeshPhongMaterial&&!O.envMap,wt=S.get(O.envMap||yt,xt),kt=O.vertexColors===!0&&!!G.attributes.color&&G.attributes.color.itemSize===4,qt=!!G.attributes.tangent&&(!!O.normalMap||O.anisotropy>0),Mt=!!G.morphAttributes.position,Yt=!!G.morphAttributes.normal,ye=!!G.morphAttributes.color,ae=$n;O.toneMapped&&(it===null||it.isXRRenderTarget===!0)&&(ae=N.toneMapping);let oe=G.morphAttributes.position||G.morphAttributes.normal||G.morphAttributes.color,ze=oe!==void 0?oe.length:0,St=It.get(O),$e=T.state.lights;if(Me===!0&&(je===!0||y!==tt)){let pe=y===tt&&O.id===X;Z.setState(O,y,pe)}let ee=!1,Ii=!1;O.version===St.__version?St.needsLights&&St.lightsStateVersion!==$e.state.version||B.isBatchedMesh&&St.batching===!1||!B.isBatchedMesh&&St.batching===!0||B.isBatchedMesh&&St.batchingColor===!0&&B._colorsTexture===null||B.isBatchedMesh&&St.batchingColor===!1&&B._colorsTexture!==null||B.isInstancedMesh&&St.instancing===!1||!B.isInstancedMesh&&St.instancing===!0||B.isSkinnedMesh&&St.skinning===!1||!B.isSkinnedMesh&&St.skinning===!0||B.isInstancedMesh&&St.instancingColor===!0&&B.instanceColor===null||B.isInstancedMesh&&St.instancingColor===!1&&B.instanceColor!==null||B.isInstancedMesh&&St.instancingMorph===!0&&B.morphTexture===null||B.isInstancedMesh&&St.instancingMorph===!1&&B.morphTexture!==null||St.envMap!==wt||O.fog===!0&&St.fog!==dt||St.numClippingPlanes!==void 0&&(St.numClippingPlanes!==Z.numPlanes||St.numIntersection!==Z.numIntersection)||St.vertexAlphas!==kt||St.vertexTangents!==qt||St.morphTargets!==Mt||St.morphNormals!==Yt||St.morphColors!==ye||St.morphTargetsCount!==ze||St.numLightProbeGrids!==Uu(T.state.lightProbeGridArray)?ee=!0:(St.outputColorSpace!==ht||St.toneMapping!==ae)&&(Ii=!0):(ee=!0,St.__version=O.version);let Ge=St.currentProgram;(ee===!0||Ii===!0)&&(Ge=Ii===!0?n0(O,P,B,ht,ae):Hs(O,P,B),z&&O.isNodeMaterial&&z.onUpdateProgram(O,Ge,St));let Yr=!1,di=!1,Pi=!1,jt=Ge.getUniforms(),Oe=St.uniforms;if(ft.useProgram(Ge.program)&&(Yr=!0,di=!0,Pi=!0),O.id!==X&&(X=O.id,di=!0),Yr||tt!==y){ft.buffers.depth.getReversed()&&y.reversedDepth!==!0&&(y._reversedDepth=!0,y.updateProjectionMatrix()),jt.setValue(D,"projectionMatrix",y.projectionMatrix),jt.setValue(D,"viewMatrix",y.matrixWorldInverse);let Ce=jt.map.cameraPosition;Ce!==void 0&&Ce.setValue(D,Bn.setFromMatrixPosition(y.matrixWorld)),ue.logarithmicDepthBuffer&&jt.setValue(D,"logDepthBufFC",2/(Math.log(y.far+1)/Math.LN2)),(O.isMeshPhongMaterial||O.isMeshToonMaterial||O.isMeshLambertMaterial||O.isMeshBasicMaterial||O.isMeshStandardMaterial||O.isShaderMaterial)&&jt.setValue(D,"isOrthographic",y.isOrthographicCamera===!0),tt!==y&&(tt=y,di=!0,Pi=!0)}if(St.needsLights&&($e.state.sunShadowMap.length>0&&jt.setValue(D,"sunShadowMap",$e.state.sunShadowMap,Ft),$e.state.directionalShadowMap.length>0&&jt.setValue(D,"directionalShadowMap",$e.state.directionalShadowMap,Ft),$e.state.spotShadowMap.length>0&&jt.setValue(D,"spotShadowMap",$e.state.spotShadowMap,Ft),$e.state.pointShadowMap.length>0&&jt.setValue(D,"pointShadowMap",$e.state.pointShadowMap,Ft)),B.isSkinnedMesh){jt.setOptional(D,B,"bindMatrix"),jt.setOptional(D,B,"bindMatrixInverse");let pe=B.skeleton;pe&&(pe.boneTexture===null&&pe.computeBoneTexture(),jt.setValue(D,"boneTexture",pe.boneTexture,Ft))}B.isBatchedMesh&&(jt.setOptional(D,B,"batchingTexture"),jt.setValue(D,"batchingTexture",B._matricesTexture,Ft),jt.setOptional(D,B,"batchingIdTexture"),jt.setValue(D,"batchingIdTexture",B._indirectTexture,Ft),jt.setOptional(D,B,"batchingColorTexture"),B._colorsTexture!==null&&jt.setValue(D,"batchingColorTexture",B._colorsTexture,Ft));let En=G.morphAttributes;if((En.position!==void 0||En.normal!==void 0||En.color!==void 0)&&K.update(B,G,Ge),(di||St.receiveShadow!==B.receiveShadow)&&(St.receiveShadow=B.receiveShadow,jt.setValue(D,"receiveShadow",B.receiveShadow)),(O.isMeshStandardMaterial||O.isMeshLambertMaterial||O.isMeshPhongMaterial)&&O.envMap===null&&P.environment!==null&&(Oe.envMapIntensity.value=P.environmentIntensity),Oe.dfgLUT!==void 0&&(Oe.dfgLUT.value=yb()),di){if(jt.setValue(D,"toneMappingExposure",N.toneMappingExposure),St.needsLights&&s0(Oe,Pi),dt&&O.fog===!0&&ot.refreshFogUniforms(Oe,dt),ot.refreshMaterialUniforms(Oe,O,_t,Ct,T.state.transmissionRenderTarget[y.id]),St.needsLights&&St.numLightProbeGrids>0){let pe=w,Ce=0;for(let Zn of T.state.lightProbeGridArray)Zn.texture!==null&&(pe.textures[Ce]=Zn.texture,pe.min[Ce]=Zn.boundingBox.min,pe.max[Ce]=Zn.boundingBox.max,pe.resolution[Ce]=Zn.resolution,Ce++);for(let Zn in pe)pe[Zn].length=Ce;Oe.probesSH.value=pe.textures,Oe.probesMin.value=pe.min,Oe.probesMax.value=pe.max,Oe.probesResolution.value=pe.resolution}Bs.upload(D,Ou(St),Oe,Ft)}if(O.isShaderMaterial&&O.uniformsNeedUpdate===!0&&(Bs.upload(D,Ou(St),Oe,Ft),O.uniformsNeedUpdate=!1),O.isSpriteMaterial&&jt.setValue(D,"center",B.center),jt.setValue(D,"modelViewMatrix",B.modelViewMatrix),jt.setValue(D,"normalMatrix",B.normalMatrix),jt.setValue(D,"modelMatrix",B.matrixWorld),O.uniformsGroups!==void 0){let pe=O.uniformsGroups;for(let Ce=0,Zn=pe.length;Ce<Zn;Ce++){let ku=pe[Ce];At.update(ku,Ge),At.bind(ku,Ge)}}return Ge}function s0(y,P){y.ambientLightColor.needsUpdate=P,y.lightProbe.needsUpdate=P,y.sunLights.needsUpdate=P,y.sunLightShadows.needsUpdate=P,y.directionalLights.needsUpdate=P,y.directionalLightShadows.needsUpdate=P,y.pointLights.needsUpdate=P,y.pointLightShadows.needsUpdate=P,y.spotLights.needsUpdate=P,y.spotLightShadows.needsUpdate=P,y.rectAreaLights.needsUpdate=P,y.hemisphereLights.needsUpdate=P}function r0(y){return y.isMeshLambertMaterial||y.isMeshToonMaterial||y.isMeshPhongMaterial||y.isMeshStandardMaterial||y.isShadowMaterial||y.isShaderMaterial&&y.lights===!0}this.getActiveCubeFace=function(){return j},this.getActiveMipmapLevel=function(){return H},this.getRenderTarget=function(){return it},this.setRenderTargetTextures=function(y,P,G){let O=It.get(y);O.__autoAllocateDepthBuffer=y.resolveDepthBuffer===!1,O.__autoAllocateDepthBuffer===!1&&(O.__useRenderToTexture=!1),It.get(y.texture).__webglTexture=P,It.get(y.depthTexture).__webglTexture=O.__autoAllocateDepthBuffer?void 0:G,O.__hasExternalTextures=!0},this.setRenderTargetFramebuffer=function(y,P){let G=It.get(y);G.__webglFramebuffer=P,G.__useDefaultFramebuffer=P===void 0},this.setRenderTarget=function(y,P=0,G=0){it=y,j=P,H=G;let O=null,B=!1,dt=!1;if(y){let ht=It.get(y);if(ht.__useDefaultFramebuffer!==void 0){ft.bindFramebuffer(D.FRAMEBUFFER,ht.__webglFramebuffer),et.copy(y.viewport),bt.copy(y.scissor),Bt=y.scissorTest,ft.viewport(et),ft.scissor(bt),ft.setScissorTest(Bt),X=-1;return}else if(ht.__webglFramebuffer===void 0)Ft.setupRenderTarget(y);else if(ht.__hasExternalTextures)Ft.rebindTextures(y,It.get(y.texture).__webglTexture,It.get(y.depthTexture).__webglTexture);else if(y.depthBuffer){let kt=y.depthTexture;if(ht.__boundDepthTexture!==kt){if(kt!==null&&It.has(kt)&&(y.width!==kt.image.width||y.height!==kt.image.height))throw new Error("THREE.WebGLRenderer: Attached DepthTexture is initialized to the incorrect size.");Ft.setupDepthRenderbuffer(y)}}let xt=y.texture;(xt.isData3DTexture||xt.isDataArrayTexture||xt.isCompressedArrayTexture)&&(dt=!0);let wt=It.get(y).__webglFramebuffer;y.isWebGLCubeRenderTarget?(Array.isArray(wt[P])?O=wt[P][G]:O=wt[P],B=!0):y.samples>0&&Ft.useMultisampledRTT(y)===!1?O=It.get(y).__webglMultisampledFramebuffer:Array.isArray(wt)?O=wt[G]:O=wt,et.copy(y.viewport),bt.copy(y.scissor),Bt=y.scissorTest}else et.copy(Lt).multiplyScalar(_t).floor(),bt.copy(ie).multiplyScalar(_t).floor(),Bt=re;if(G!==0&&(O=Y),ft.bindFramebuffer(D.FRAMEBUFFER,O)&&ft.drawBuffers(y,O),ft.viewport(et),ft.scissor(bt),ft.setScissorTest(Bt),B){let ht=It.get(y.texture);D.framebufferTexture2D(D.FRAMEBUFFER,D.COLOR_ATTACHMENT0,D.TEXTURE_CUBE_MAP_POSITIVE_X+P,ht.__webglTexture,G)}else if(dt){let ht=P;for(let xt=0;xt<y.textures.length;xt++){let wt=It.get(y.textures[xt]);D.framebufferTextureLayer(D.FRAMEBUFFER,D.COLOR_ATTACHMENT0+xt,wt.__webglTexture,G,ht)}}else if(y!==null&&G!==0){let ht=It.get(y.texture);D.framebufferTexture2D(D.FRAMEBUFFER,D.COLOR_ATTACHMENT0,D.TEXTURE_2D,ht.__webglTexture,G)}X=-1};function Bu(y){let P=It.get(y);return(P.__readFormat!==y.format||P.__readType!==y.type)&&(P.__readFormat=y.format,P.__readType=y.type,P.__formatReadable=ue.textureFormatReadable(y.format),P.__typeReadable=ue.textureTypeReadable(y.type)),P}this.readRenderTargetPixels=function(y,P,G,O,B,dt,yt,ht=0){if(!(y&&y.isWebGLRenderTarget)){Ut("WebGLRenderer.readRenderTargetPixels: renderTarget is not THREE.WebGLRenderTarget.");return}let xt=It.get(y).__webglFramebuffer;if(y.isWebGLCubeRenderTarget&&yt!==void 0&&(xt=xt[yt],Array.isArray(xt)&&(xt=xt[0])),xt){ft.bindFramebuffer(D.FRAMEBUFFER,xt);try{let wt=y.textures[ht],kt=wt.format,qt=wt.type;y.textures.length>1&&D.readBuffer(D.COLOR_ATTACHMENT0+ht);let Mt=Bu(wt);if(Mt.__formatReadable===!1){Ut("WebGLRenderer.readRenderTargetPixels: renderTarget is not in RGBA or implementation defined format.");return}if(Mt.__typeReadable===!1){Ut("WebGLRenderer.readRenderTargetPixels: renderTarget is not in UnsignedByteType or implementation defined type.");return}P>=0&&P<=y.width-O&&G>=0&&G<=y.height-B&&D.readPixels(P,G,O,B,rt.convert(kt),rt.convert(qt),dt)}finally{let wt=it!==null?It.get(it).__webglFramebuffer:null;ft.bindFramebuffer(D.FRAMEBUFFER,wt)}}},this.readRenderTargetPixelsAsync=async function(y,P,G,O,B,dt,yt,ht=0){if(!(y&&y.isWebGLRenderTarget))throw new Error("THREE.WebGLRenderer.readRenderTargetPixels: renderTarget is not THREE.WebGLRenderTarget.");let xt=It.get(y).__webglFramebuffer;if(y.isWebGLCubeRenderTarget&&yt!==void 0&&(xt=xt[yt],Array.isArray(xt)&&(xt=xt[0])),xt)if(P>=0&&P<=y.width-O&&G>=0&&G<=y.height-B){ft.bindFramebuffer(D.FRAMEBUFFER,xt);let wt=y.textures[ht],kt=wt.format,qt=wt.type;y.textures.length>1&&D.readBuffer(D.COLOR_ATTACHMENT0+ht);let Mt=Bu(wt);if(Mt.__formatReadable===!1)throw new Error("THREE.WebGLRenderer.readRenderTargetPixelsAsync: renderTarget is not in RGBA or implementation defined format.");if(Mt.__typeReadable===!1)throw new Error("THREE.WebGLRenderer.readRenderTargetPixelsAsync: renderTarget is not in UnsignedByteType or implementation defined type.");let Yt=D.createBuffer();D.bindBuffer(D.PIXEL_PACK_BUFFER,Yt),D.bufferData(D.PIXEL_PACK_BUFFER,dt.byteLength,D.STREAM_READ),D.readPixels(P,G,O,B,rt.convert(kt),rt.convert(qt),0),D.bindBuffer(D.PIXEL_PACK_BUFFER,null);let ye=it!==null?It.get(it).__webglFramebuffer:null;ft.bindFramebuffer(D.FRAMEBUFFER,ye);let ae=D.fenceSync(D.SYNC_GPU_COMMANDS_COMPLETE,0);return D.flush(),await ym(D,ae,4),D.bindBuffer(D.PIXEL_PACK_BUFFER,Yt),D.getBufferSubData(D.PIXEL_PACK_BUFFER,0,dt),D.bindBuffer(D.PIXEL_PACK_BUFFER,null),D.deleteBuffer(Yt),D.deleteSync(ae),dt}else throw new Error("THREE.WebGLRenderer.readRenderTargetPixelsAsync: requested read bounds are out of range.")},this.copyFramebufferToTexture=function(y,P=null,G=0){let O=Math.pow(2,-G),B=Math.floor(y.image.width*O),dt=Math.floor(y.image.height*O),yt=P!==null?P.x:0,ht=P!==null?P.y:0;Ft.setTexture2D(y,0),D.copyTexSubImage2D(D.TEXTURE_2D,G,0,0,yt,ht,B,dt),ft.unbindTexture()},this.copyTextureToTexture=function(y,P,G=null,O=null,B=0,dt=0){let yt,ht,xt,wt,kt,qt,Mt,Yt,ye,ae=y.isCompressedTexture?y.mipmaps[dt]:y.image;if(G!==null)yt=G.max.x-G.min.x,ht=G.max.y-G.min.y,xt=G.isBox3?G.max.z-G.min.z:1,wt=G.min.x,kt=G.min.y,qt=G.isBox3?G.min.z:0;else{let jt=Math.pow(2,-B);yt=Math.floor(ae.width*jt),ht=Math.floor(ae.height*jt),y.isDataArrayTexture?xt=ae.depth:y.isData3DTexture?xt=Math.floor(ae.depth*jt):xt=1,wt=0,kt=0,qt=0}O!==null?(Mt=O.x,Yt=O.y,ye=O.z):(Mt=0,Yt=0,ye=0);let oe=rt.convert(P.format),ze=rt.convert(P.type),St;P.isData3DTexture?(Ft.setTexture3D(P,0),St=D.TEXTURE_3D):P.isDataArrayTexture||P.isCompressedArrayTexture?(Ft.setTexture2DArray(P,0),St=D.TEXTURE_2D_ARRAY):(Ft.setTexture2D(P,0),St=D.TEXTURE_2D),ft.activeTexture(D.TEXTURE0),ft.pixelStorei(D.UNPACK_FLIP_Y_WEBGL,P.flipY),ft.pixelStorei(D.UNPACK_PREMULTIPLY_ALPHA_WEBGL,P.premultiplyAlpha),ft.pixelStorei(D.UNPACK_ALIGNMENT,P.unpackAlignment);let $e=ft.getParameter(D.UNPACK_ROW_LENGTH),ee=ft.getParameter(D.UNPACK_IMAGE_HEIGHT),Ii=ft.getParameter(D.UNPACK_SKIP_PIXELS),Ge=ft.getParameter(D.UNPACK_SKIP_ROWS),Yr=ft.getParameter(D.UNPACK_SKIP_IMAGES);ft.pixelStorei(D.UNPACK_ROW_LENGTH,ae.width),ft.pixelStorei(D.UNPACK_IMAGE_HEIGHT,ae.height),ft.pixelStorei(D.UNPACK_SKIP_PIXELS,wt),ft.pixelStorei(D.UNPACK_SKIP_ROWS,kt),ft.pixelStorei(D.UNPACK_SKIP_IMAGES,qt);let di=y.isDataArrayTexture||y.isData3DTexture,Pi=P.isDataArrayTexture||P.isData3DTexture;if(y.isDepthTexture){let jt=It.get(y),Oe=It.get(P),En=It.get(jt.__renderTarget),pe=It.get(Oe.__renderTarget);ft.bindFramebuffer(D.READ_FRAMEBUFFER,En.__webglFramebuffer),ft.bindFramebuffer(D.DRAW_FRAMEBUFFER,pe.__webglFramebuffer);for(let Ce=0;Ce<xt;Ce++)di&&(D.framebufferTextureLayer(D.READ_FRAMEBUFFER,D.COLOR_ATTACHMENT0,It.get(y).__webglTexture,B,qt+Ce),D.framebufferTextureLayer(D.DRAW_FRAMEBUFFER,D.COLOR_ATTACHMENT0,It.get(P).__webglTexture,dt,ye+Ce)),D.blitFramebuffer(wt,kt,wt+yt,kt+ht,Mt,Yt,Mt+yt,Yt+ht,D.DEPTH_BUFFER_BIT,D.NEAREST);ft.bindFramebuffer(D.READ_FRAMEBUFFER,null),ft.bindFramebuffer(D.DRAW_FRAMEBUFFER,null)}else if(B!==0||y.isRenderTargetTexture||It.has(y)){let jt=It.get(y),Oe=It.get(P);ft.bindFramebuffer(D.READ_FRAMEBUFFER,L),ft.bindFramebuffer(D.DRAW_FRAMEBUFFER,$);for(let En=0;En<xt;En++)di?D.framebufferTextureLayer(D.READ_FRAMEBUFFER,D.COLOR_ATTACHMENT0,jt.__webglTexture,B,qt+En):D.framebufferTexture2D(D.READ_FRAMEBUFFER,D.COLOR_ATTACHMENT0,D.TEXTURE_2D,jt.__webglTexture,B),Pi?D.framebufferTextureLayer(D.DRAW_FRAMEBUFFER,D.COLOR_ATTACHMENT0,Oe.__webglTexture,dt,ye+En):D.framebufferTexture2D(D.DRAW_FRAMEBUFFER,D.COLOR_ATTACHMENT0,D.TEXTURE_2D,Oe.__webglTexture,dt),B!==0?D.blitFramebuffer(wt,kt,wt+yt,kt+ht,Mt,Yt,Mt+yt,Yt+ht,D.COLOR_BUFFER_BIT,D.NEAREST):Pi?D.copyTexSubImage3D(St,dt,Mt,Yt,ye+En,wt,kt,yt,ht):D.copyTexSubImage2D(St,dt,Mt,Yt,wt,kt,yt,ht);ft.bindFramebuffer(D.READ_FRAMEBUFFER,null),ft.bindFramebuffer(D.DRAW_FRAMEBUFFER,null)}else Pi?y.isDataTexture||y.isData3DTexture?D.texSubImage3D(St,dt,Mt,Yt,ye,yt,ht,xt,oe,ze,ae.data):P.isCompressedArrayTexture?D.compressedTexSubImage3D(St,dt,Mt,Yt,ye,yt,ht,xt,oe,ae.data):D.texSubImage3D(St,dt,Mt,Yt,ye,yt,ht,xt,oe,ze,ae):y.isDataTexture?D.texSubImage2D(D.TEXTURE_2D,dt,Mt,Yt,yt,ht,oe,ze,ae.data):y.isCompressedTexture?D.compressedTexSubImage2D(D.TEXTURE_2D,dt,Mt,Yt,ae.width,ae.height,oe,ae.data):D.texSubImage2D(D.TEXTURE_2D,dt,Mt,Yt,yt,ht,oe,ze,ae);ft.pixelStorei(D.UNPACK_ROW_LENGTH,$e),ft.pixelStorei(D.UNPACK_IMAGE_HEIGHT,ee),ft.pixelStorei(D.UNPACK_SKIP_PIXELS,Ii),ft.pixelStorei(D.UNPACK_SKIP_ROWS,Ge),ft.pixelStorei(D.UNPACK_SKIP_IMAGES,Yr),dt===0&&P.generateMipmaps===!0&&P.mipmapsAutoUpdate===!0&&D.generateMipmap(St),ft.unbindTexture()},this.initRenderTarget=function(y){It.get(y).__webglFramebuffer===void 0&&Ft.setupRenderTarget(y)},this.initTexture=function(y){y.isCubeTexture?Ft.setTextureCube(y,0):y.isData3DTexture?Ft.setTexture3D(y,0):y.isDataArrayTexture||y.isCompressedArrayTexture?Ft.setTexture2DArray(y,0):Ft.setTexture2D(y,0),ft.unbindTexture()},this.resetState=function(){j=0,H=0,it=null,ft.reset(),at.reset()},typeof __THREE_DEVTOOLS__<"u"&&__THREE_DEVTOOLS__.dispatchEvent(new CustomEvent("observe",{detail:this}))}get coordinateSystem(){return yn}get outputColorSpace(){return this._outputColorSpace}set outputColorSpace(t){this._outputColorSpace=t;let e=this.getContext();e.drawingBufferColorSpace=Zt._getDrawingBufferColorSpace(t),e.unpackColorSpace=Zt._getUnpackColorSpace()}};function sg(i,t,e,n){let s=Sb(i,vb(i.length/3,t),e,n),r=new Uint32Array(t.length),o=0;for(let a=0;a<t.length;a+=3){let l=s[t[a]],c=s[t[a+1]],h=s[t[a+2]];l===c||c===h||h===l||(r[o]=l,r[o+1]=c,r[o+2]=h,o+=3)}return r.slice(0,o)}function vb(i,t){let e=new Int32Array(i);for(let n=0;n<t.length;n+=3)for(let s=0;s<3;s+=1){let r=t[n+s],o=t[n+(s+1)%3];e[r]=e[r]+Math.imul(o+1,2654435761)|0,e[o]=e[o]-Math.imul(r+1,2654435761)|0}return e}function Mb(i,t){return(i[4*t]>0?4:0)+(i[4*t+1]>0?2:0)+(i[4*t+2]>0?1:0)}function Sb(i,t,e,n){let s=i.length/3,r=new Map,o=new Int32Array(s).fill(-1),a=[];for(let h=0;h<s;h+=1){if(t[h]!==0)continue;let[d,u,f]=[0,1,2].map(p=>Math.floor(i[3*h+p]/n)+2048),m=((d*4096+u)*4096+f)*8+Mb(e,h);r.has(m)||(r.set(m,a.length/4),a.push(0,0,0,0));let v=r.get(m);o[h]=v;for(let p=0;p<3;p+=1)a[4*v+p]+=i[3*h+p];a[4*v+3]+=1}let l=new Int32Array(a.length/4).fill(-1),c=new Float64Array(a.length/4).fill(1/0);for(let h=0;h<s;h+=1){let d=o[h];if(d<0)continue;let u=0;for(let f=0;f<3;f+=1)u+=(i[3*h+f]-a[4*d+f]/a[4*d+3])**2;u<c[d]&&(c[d]=u,l[d]=h)}return Uint32Array.from(o,(h,d)=>h<0?d:l[h])}var rg=`
precision highp float;
uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
in vec3 position;
in vec4 shade;
in vec4 colour;
in float gap;
out vec3 vNormal;
out vec3 vColour;
out float vHollow;
out float vGap;

void main() {
  vNormal = mat3(modelViewMatrix) * shade.xyz;
  vHollow = shade.w;
  vColour = colour.rgb;
  vGap = gap;
  gl_Position = projectionMatrix * (modelViewMatrix * vec4(position, 1.0));
}
`,og=`
precision highp float;
in vec3 vNormal;
in vec3 vColour;
in float vHollow;
in float vGap;
out vec4 colourOut;

vec3 facing() {
  vec3 n = normalize(vNormal);
  return n.z < 0.0 ? -n : n;
}

// A key light from above on the left, a weak one from the right, and light from all around, which
// reaches less of grooves and fossae.
float brightness(vec3 n) {
  float key = max(dot(n, vec3(-0.42, 0.56, 0.714)), 0.0);
  float fill = max(dot(n, vec3(0.78, -0.05, 0.62)), 0.0);
  float hollow = vHollow > 0.0 ? 1.0 - 0.42 * vHollow : 1.0 - 0.10 * vHollow;
  return (0.40 + 0.57 * key + 0.18 * fill) * hollow;
}
`,tu=`${og}
uniform sampler2D scale;
uniform float strength;
uniform float touching;

void main() {
  vec3 n = facing();
  vec3 base = vColour;
  float light = brightness(n);
  if (strength > 0.0 && vGap < 1.0) {
    float share = vGap * (65535.0 / 65534.0);
    vec4 gapColour = texture(scale, vec2((share * 255.0 + 0.5) / 256.0, 0.5));
    base = mix(base, gapColour.rgb, strength * gapColour.a);
    float edge = max(fwidth(share), 1e-4);
    float touch = 1.0 - smoothstep(touching, touching + edge, share);
    base = mix(base, vec3(0.0, 0.0, 0.02), strength * touch);
    light = mix(light, 0.45 + 0.6 * light, 0.5);
  }
  float shine = pow(max(dot(n, vec3(-0.226, 0.302, 0.926)), 0.0), 60.0);
  colourOut = vec4(base * min(light, 1.12) + vec3(0.10 * shine), 1.0);
}
`,eu=`${og}
void main() {
  vec3 n = facing();
  float rim = 1.0 - n.z;
  float opacity = 0.16 + 0.68 * rim * rim;
  vec3 face = vColour * (0.55 + 0.45 * brightness(n)) * 0.88;
  colourOut = vec4(mix(face, vec3(0.20, 0.27, 0.35), min(1.0, 1.1 * rim)), opacity);
}
`;var lg=16777215,cg=["upper","lower"],Sl=400,wb=2.5,Ab=.9,Eb=12e3,bl={solid:0,depth:1,ghost:2},Tb=/swiftshader|llvmpipe|softpipe|software|basic render/i,de,nu,wl,iu,hg,ug,su,Vr,Al=class{constructor(t,e){Tt(this,de);this.holder=t,this.scene=new yr,this.eye=new Ls(-1,1,1,-1,0,2*Sl),this.eye.matrixAutoUpdate=!1,E(this,de,ug).call(this,e),this.meshes={},this.gaps={},this.width=0,this.height=0,this.ratio=0,E(this,de,nu).call(this,!1),this.software=E(this,de,hg).call(this)}smoothOutlines(){E(this,de,wl).call(this);let t=this.renderer;E(this,de,nu).call(this,!0),t.dispose();let{width:e,height:n,ratio:s}=this;this.width=0,this.size(e,n,s)}setCasts(t){E(this,de,iu).call(this);for(let e of Object.values(this.meshes))this.scene.remove(e);this.meshes={};for(let e of cg){let{teeth:n,around:s}=t[e],r=n.index.length/3>Eb,o=E(this,de,su).call(this,n,r?Ab:null);this.gaps[e]={attribute:o.fine.getAttribute("gap"),order:n.order},E(this,de,Vr).call(this,`${e} solid`,o,n.closed,"plain",bl.solid),E(this,de,Vr).call(this,`${e} depth`,o,n.closed,"depth",bl.depth),E(this,de,Vr).call(this,`${e} ghost`,o,n.closed,"ghost",bl.ghost);let a=E(this,de,su).call(this,s,wb);E(this,de,Vr).call(this,`${e} around`,a,s.closed,"plain",bl.solid)}}setCoarse(t){for(let e of Object.values(this.meshes))e.geometry=t?e.userData.shapes.coarse:e.userData.shapes.fine}setGaps(t,e){let{attribute:n,order:s}=this.gaps[t],r=e.length===s.length;for(let o=0;o<s.length;o+=1)n.array[o]=r?e[s[o]]:Ec;n.needsUpdate=!0}gapsOf(t){return this.gaps[t].attribute.array}setDisplay({upper:t,lower:e,around:n,coloured:s}){let r={upper:t,lower:e};for(let o of cg){let a=r[o],l=c=>this.meshes[`${o} ${c}`];l("solid")&&(l("solid").visible=a==="solid",l("solid").material=l("solid").userData.materials[s?"coloured":"plain"],l("depth").visible=a==="ghosted",l("ghost").visible=a==="ghosted",l("around").visible=n&&a==="solid")}}setLimit(t){for(let{coloured:e}of Object.values(this.materials))e.uniforms.touching.value=.02/t}setMove(t){for(let[e,n]of Object.entries(this.meshes))e.startsWith("lower")&&(n.matrix.set(...t),n.matrixWorldNeedsUpdate=!0)}size(t,e,n){t===this.width&&e===this.height&&n===this.ratio||(this.width=t,this.height=e,this.ratio=n,this.renderer.setPixelRatio(n),this.renderer.setSize(t,e,!1))}get lost(){return this.renderer.getContext().isContextLost()}draw(t){let{right:e,up:n,towards:s,centre:r}=t;this.eye.matrix.set(e[0],n[0],-s[0],r[0]-Sl*s[0],e[1],n[1],-s[1],r[1]-Sl*s[1],e[2],n[2],-s[2],r[2]-Sl*s[2],0,0,0,1),this.eye.matrixWorldNeedsUpdate=!0;let o=t.width/2/t.pxPerMm,a=t.height/2/t.pxPerMm;this.eye.left=-o,this.eye.right=o,this.eye.top=a,this.eye.bottom=-a,this.eye.updateProjectionMatrix(),this.renderer.render(this.scene,this.eye)}async done(){let t=this.renderer.getContext(),e=t.fenceSync(t.SYNC_GPU_COMMANDS_COMPLETE,0);for(t.flush();e&&!t.isContextLost()&&t.getSyncParameter(e,t.SYNC_STATUS)!==t.SIGNALED;)await new Promise(n=>{setTimeout(n,1)});t.deleteSync(e)}dispose(){E(this,de,wl).call(this),this.renderer.dispose(),this.canvas.remove()}};de=new WeakSet,nu=function(t){let e=document.createElement("canvas");this.renderer=new yl({canvas:e,antialias:t,alpha:!1,stencil:!1}),this.renderer.setClearColor(lg,1),this.antialias=t,e.className="casts-surfaces",e.setAttribute("aria-hidden","true");let n=this.canvas;this.canvas=e,n?n.replaceWith(e):this.holder.prepend(e),e.addEventListener("webglcontextlost",()=>{E(this,de,wl).call(this),this.onLost?.()}),e.addEventListener("webglcontextrestored",()=>{this.renderer.setClearColor(lg,1),this.onRestored?.()})},wl=function(){E(this,de,iu).call(this);for(let t of Object.values(this.materials))for(let e of Object.values(t))e.dispose();this.scale.dispose()},iu=function(){for(let t of Object.values(this.meshes))t.userData.shapes.fine.dispose(),t.userData.shapes.coarse.dispose()},hg=function(){let t=this.renderer.getContext(),e=t.getExtension("WEBGL_debug_renderer_info");return Tb.test(t.getParameter(e?e.UNMASKED_RENDERER_WEBGL:t.RENDERER))},ug=function(t){let e=new Cs(Td(t),256,1,cn);e.minFilter=De,e.magFilter=De,e.needsUpdate=!0;let n=(s,r,o)=>new Ps({glslVersion:Or,vertexShader:rg,fragmentShader:s,depthFunc:Si,uniforms:{scale:{value:e},strength:{value:r},touching:{value:.02}},...o});this.scale=e,this.materials={};for(let[s,r]of[["open",bn],["closed",Xn]])this.materials[s]={coloured:n(tu,1,{side:r}),plain:n(tu,0,{side:r}),depth:n(eu,0,{side:r,colorWrite:!1,transparent:!0}),ghost:n(eu,0,{side:r,transparent:!0,depthWrite:!1})}},su=function(t,e){let n=Rb(t);if(!this.software||e===null)return{fine:n,coarse:n};let s=new Nn;for(let[o,a]of Object.entries(n.attributes))s.setAttribute(o,a);let r=sg(t.positions,t.index,t.shade,e);return s.setIndex(new Be(r,1)),{fine:n,coarse:s}},Vr=function(t,e,n,s,r){let o=new Sn(e.fine);o.userData.shapes=e,o.userData.materials=this.materials[n?"closed":"open"],o.material=o.userData.materials[s],o.frustumCulled=!1,o.matrixAutoUpdate=!1,o.renderOrder=r,this.meshes[t]=o,this.scene.add(o)};function Rb(i){let t=new Nn;t.setAttribute("position",new Be(i.positions,3)),t.setAttribute("shade",new Be(i.shade,4,!0)),t.setAttribute("colour",new Be(i.colours,4,!0));let e=new Uint16Array(i.positions.length/3).fill(Ec);return t.setAttribute("gap",new Be(e,1,!0)),t.setIndex(new Be(i.index,1)),t}var Cb=180,ru=5,Ib=16,Pb=30,Lb=2,Nb=80,Db=.5,Ji=2,Hr={margin:10,line:18},Ub="The casts cannot be drawn: this browser has no WebGL, or it is switched off. Everything else on this page works. Try another browser, or switch on hardware acceleration.",Ob="The graphics card has stopped drawing. The picture comes back by itself.",_e,ou,El,au,lu,dg,cu,fg,Tl=class{constructor(t,e,n){Tt(this,_e);this.holder=t,this.view=n,this.costs=[],this.frames=0;try{this.stage=new Al(t,e)}catch{E(this,_e,El).call(this,Ub);return}this.overlay=new Po(t),E(this,_e,ou).call(this,this.stage.canvas),this.stage.onLost=()=>E(this,_e,El).call(this,Ob),this.stage.onRestored=()=>{E(this,_e,El).call(this,""),this.changed()},this.watcher=new ResizeObserver(()=>E(this,_e,au).call(this)),this.watcher.observe(t),E(this,_e,au).call(this)}timeAgain(){this.costs=[]}get cost(){return[...this.costs].sort((t,e)=>t-e)[this.costs.length>>1]??0}moving(t){this.inMotion=t,this.changed()}changed(){this.stage&&(clearTimeout(this.stillTimer),this.frame||(this.frame=requestAnimationFrame(()=>E(this,_e,lu).call(this,!1))))}picture(t){let{eye:e}=this.view,n=document.createElement("canvas"),s=n.getContext("2d"),r=Fb(s,t,e.width-2*Hr.margin),o=e.height+(r.length?r.length*Hr.line+Hr.margin:0);return n.width=e.width*Ji,n.height=o*Ji,s.fillStyle="#ffffff",s.fillRect(0,0,n.width,n.height),this.stage&&this.view.ready()&&(E(this,_e,cu).call(this,Ji,!1),s.drawImage(this.stage.canvas,0,0,n.width,e.height*Ji),s.scale(Ji,Ji),mp(s,e.width,e.height,this.view.model(!0),Ji),r.forEach(({text:a,bold:l},c)=>Fe(s,a,Hr.margin,e.height+Hr.line*(c+.7),{bold:l})),this.changed()),new Promise(a=>{n.toBlob(a,"image/png")})}dispose(){cancelAnimationFrame(this.frame),clearTimeout(this.stillTimer),this.watcher?.disconnect(),this.stage?.dispose();for(let t of this.overlay?.canvases??[])t.remove();this.words?.remove(),this.stage=null}};_e=new WeakSet,ou=function(t){Object.assign(t.style,{position:"absolute",left:"0",top:"0",width:"100%",height:"100%"})},El=function(t){this.words??(this.words=document.createElement("p")),this.words.className="casts-message",this.words.setAttribute("role","status"),this.words.textContent=t,t?this.holder.append(this.words):this.words.remove()},au=function(){let{eye:t}=this.view;t.width=Math.max(1,Math.round(this.holder.clientWidth)),t.height=Math.max(1,Math.round(this.holder.clientHeight)),this.overlay.size(t.width,t.height,Math.max(1,globalThis.devicePixelRatio??1)),this.view.resized(),this.changed()},lu=function(t){if(this.frame=0,!this.view.ready()||this.stage.lost)return;let e=performance.now();E(this,_e,cu).call(this,E(this,_e,dg).call(this,t),!t),t||E(this,_e,fg).call(this,e),this.overlay.draw(this.view.model(t)),!t&&!this.inMotion&&(this.stillTimer=setTimeout(()=>E(this,_e,lu).call(this,!0),Cb)),this.view.drawn({milliseconds:performance.now()-e,still:t})},dg=function(t){return this.stage.software?this.cost>Nb?t?1:Db:t?Lb:1:Math.min(globalThis.devicePixelRatio??1,2)},cu=function(t,e){let{eye:n}=this.view;this.stage.setCoarse(e&&this.stage.software),this.stage.size(n.width,n.height,t),this.stage.draw(n)},fg=async function(t){this.frames+=1,!(this.costs.length===ru&&this.frames%Ib!==0||(await this.stage.done(),this.costs.push(performance.now()-t),this.costs.length>ru&&this.costs.shift(),!(this.costs.length===ru&&this.cost<=Pb)||!this.stage||this.stage.software||this.stage.antialias))&&(this.stage.smoothOutlines(),E(this,_e,ou).call(this,this.stage.canvas),this.changed())};function Fb(i,t,e){return t.flatMap((n,s)=>np(i,n,e,{bold:s===0}).map(r=>({text:r,bold:s===0})))}var Xe,Rl,pg,Cl,mg,gg,hu=class{constructor(t,e,n){Tt(this,Xe);this.positions=t,this.index=e,this.order=n;let s=4*Math.ceil(n.length/6)+4;this.boxes=new Float32Array(6*s),this.firsts=new Int32Array(s),this.counts=new Int32Array(s),this.seconds=new Int32Array(s),this.made=0,E(this,Xe,Rl).call(this,0,n.length)}cast(t,e,n,s){let r=e.map(a=>1/(Math.abs(a)<1e-12?1e-12:a)),o=[0];for(;o.length>0;){let a=o.pop();if(!E(this,Xe,gg).call(this,a,t,r,n,s.t))continue;let l=this.counts[a];if(l===0){o.push(this.seconds[a],a+1);continue}for(let c=this.firsts[a];c<this.firsts[a]+l;c+=1)Bb(this.positions,this.index,this.order[c],t,e,n,s)}}};Xe=new WeakSet,Rl=function(t,e){let n=this.made;this.made+=1;let s=E(this,Xe,mg).call(this,t,e);if(this.boxes.set(s,6*n),e-t<=6){this.firsts[n]=t,this.counts[n]=e-t;return}let r=0;for(let a=1;a<3;a+=1)s[a+3]-s[a]>s[r+3]-s[r]&&(r=a);let o=t+e>>1;E(this,Xe,pg).call(this,t,e-1,o,r),E(this,Xe,Rl).call(this,t,o),this.seconds[n]=this.made,E(this,Xe,Rl).call(this,o,e)},pg=function(t,e,n,s){let{order:r}=this,o=t,a=e;for(;o<a;){let l=E(this,Xe,Cl).call(this,r[o+a>>1],s),c=o,h=a;for(;c<=h;){for(;E(this,Xe,Cl).call(this,r[c],s)<l;)c+=1;for(;E(this,Xe,Cl).call(this,r[h],s)>l;)h-=1;c<=h&&([r[c],r[h]]=[r[h],r[c]],c+=1,h-=1)}if(n<=h)a=h;else if(n>=c)o=c;else return}},Cl=function(t,e){let{positions:n,index:s}=this,r=3*t;return n[3*s[r]+e]+n[3*s[r+1]+e]+n[3*s[r+2]+e]},mg=function(t,e){let n=[1/0,1/0,1/0,-1/0,-1/0,-1/0];for(let s=t;s<e;s+=1)for(let r=0;r<3;r+=1){let o=3*this.index[3*this.order[s]+r];for(let a=0;a<3;a+=1){let l=this.positions[o+a];l<n[a]&&(n[a]=l),l>n[a+3]&&(n[a+3]=l)}}return n},gg=function(t,e,n,s,r){let o=s,a=r;for(let l=0;l<3;l+=1){let c=(this.boxes[6*t+l]-e[l])*n[l],h=(this.boxes[6*t+l+3]-e[l])*n[l];o=Math.max(o,Math.min(c,h)),a=Math.min(a,Math.max(c,h))}return o<=a};function Bb(i,t,e,n,s,r,o){let a=3*t[3*e],l=3*t[3*e+1],c=3*t[3*e+2],h=i[l]-i[a],d=i[l+1]-i[a+1],u=i[l+2]-i[a+2],f=i[c]-i[a],m=i[c+1]-i[a+1],v=i[c+2]-i[a+2],p=s[1]*v-s[2]*m,g=s[2]*f-s[0]*v,M=s[0]*m-s[1]*f,I=h*p+d*g+u*M;if(Math.abs(I)<1e-14)return;let w=n[0]-i[a],C=n[1]-i[a+1],T=n[2]-i[a+2],_=(w*p+C*g+T*M)/I;if(_<-1e-7||_>1+1e-7)return;let b=C*u-T*d,k=T*h-w*u,N=w*d-C*h,U=(s[0]*b+s[1]*k+s[2]*N)/I;if(U<-1e-7||_+U>1+1e-7)return;let z=(f*b+m*k+v*N)/I;z<r||z>=o.t||(o.t=z,o.triangle=e,o.u=_,o.v=U)}var Il=class{constructor(t){this.surface=t,this.crowns=[...kb(t)].map(([e,n])=>({tooth:e,triangles:Uint32Array.from(n),tree:null,...zb(t,n)}))}cast(t,e,n=-1/0,s=-1){let r={t:1/0,triangle:-1,u:0,v:0},{positions:o,index:a}=this.surface;for(let l of this.crowns){if(l.tooth===s)continue;let[c,h,d]=[0,1,2].map(f=>l.middle[f]-t[f]),u=c*e[0]+h*e[1]+d*e[2];c*c+h*h+d*d-u*u>l.radius*l.radius||u+l.radius<n||u-l.radius>r.t||(l.tree??(l.tree=new hu(o,a,l.triangles)),l.tree.cast(t,e,n,r))}return r.triangle<0?null:r}};function kb({index:i,tooth:t}){let e=new Map;for(let n=0;n<i.length/3;n+=1){let s=t[i[3*n]];e.has(s)||e.set(s,[]),e.get(s).push(n)}return e}function zb({positions:i,index:t},e){let n=[1/0,1/0,1/0],s=[-1/0,-1/0,-1/0],r=l=>{for(let c of e)for(let h=0;h<3;h+=1)l(3*t[3*c+h])};r(l=>{for(let c=0;c<3;c+=1)n[c]=Math.min(n[c],i[l+c]),s[c]=Math.max(s[c],i[l+c])});let o=[0,1,2].map(l=>.5*(n[l]+s[l])),a=0;return r(l=>{let[c,h,d]=[0,1,2].map(u=>i[l+u]-o[u]);a=Math.max(a,c*c+h*h+d*d)}),{low:n,high:s,middle:o,radius:Math.sqrt(a)}}function _g(i,t,e,n){let s=[0,1,2].map(l=>i[t[3*e.triangle+l]]);if(s.includes(65535))return null;let[r,o,a]=s;return(r+e.u*(o-r)+e.v*(a-r))*n/65534}function xg(i,t){let e=[1-t.u-t.v,t.u,t.v];return i[3*t.triangle+e.indexOf(Math.max(...e))]}function yg(i,t){let e=new Map,n=new AbortController,s=(l,c)=>i.addEventListener(l,c,{signal:n.signal,passive:!1}),r=l=>{let c=i.getBoundingClientRect();return[l.clientX-c.left,l.clientY-c.top]};s("pointerdown",l=>{l.button>2||(e.set(l.pointerId,r(l)),i.setPointerCapture(l.pointerId),i.focus({preventScroll:!0}),t.leave())}),s("pointermove",l=>{let c=r(l),h=e.get(l.pointerId);if(!h){l.pointerType!=="touch"&&t.hover(...c);return}let[d,u]=[c[0]-h[0],c[1]-h[1]];e.size===1?l.buttons&6||l.shiftKey?t.pan(d,u):t.turn(d,u):a(l.pointerId,h,c),e.set(l.pointerId,c)});let o=l=>e.delete(l.pointerId);s("pointerup",o),s("pointercancel",o),s("pointerleave",()=>t.leave()),s("contextmenu",l=>l.preventDefault()),s("wheel",l=>{l.preventDefault();let c=l.deltaMode===1?16:1;t.zoom(Math.exp(-.0016*c*l.deltaY),...r(l))});function a(l,c,h){let d=[...e].find(([f])=>f!==l)[1];t.pan((h[0]-c[0])/2,(h[1]-c[1])/2);let u=f=>Math.hypot(f[0]-d[0],f[1]-d[1]);u(c)>1&&t.zoom(u(h)/u(c),(h[0]+d[0])/2,(h[1]+d[1])/2)}return()=>n.abort()}var Gb=400,Vb=.5,Fn,uu,du,fu,Pl=class{constructor(t){Tt(this,Fn);this.surfaces=[];for(let e of["upper","lower"])for(let n of["teeth","around"])this.surfaces.push({arch:e,kind:n,surface:t[e][n],picker:new Il(t[e][n])});this.move=ir,this.display={upper:"solid",lower:"solid",around:!0}}hides(t,e){return E(this,Fn,fu).call(this,t,e,["solid"],-1)}isBehindOthers(t,e,n,s){let r=this.display[n]==="ghosted"?["solid","ghosted"]:["solid"];return E(this,Fn,fu).call(this,t,e,r,s)}crown(t,e){let{picker:n}=this.surfaces.find(s=>s.arch===t&&s.kind==="teeth");return n.crowns.find(s=>s.tooth===e)}pick(t,e){let n=tn(t,e,-Gb);for(let s of["solid","ghosted"]){let r=null;for(let o of this.surfaces){if(!E(this,Fn,uu).call(this,o,s))continue;let a=o.picker.cast(...E(this,Fn,du).call(this,o,n,e));a&&(!r||a.t<r.hit.t)&&(r={...o,hit:a})}if(r)return r.kind==="teeth"?r:null}return null}};Fn=new WeakSet,uu=function({arch:t,kind:e},n){return this.display[t]===n&&(e==="teeth"||this.display.around&&n==="solid")},du=function({arch:t},e,n){return t==="upper"?[e,n]:[as(this.move,e),Gf(this.move,n)]},fu=function(t,e,n,s){let r=[-e[0],-e[1],-e[2]];return this.surfaces.some(o=>{if(!n.some(c=>E(this,Fn,uu).call(this,o,c)))return!1;let[a,l]=E(this,Fn,du).call(this,o,t,r);return o.picker.cast(a,l,Vb,s)!==null})};var pu=["upper","lower"],Hb={beside:12,above:4},Wb={"upper occlusal":"upper","lower occlusal":"lower",mouth:"lower"},Xt,mu,Mg,Ll,Wr,Nl,gu,Ki,Dl,_u,Ul=class{constructor(t,{colours:e,styles:n,gapScale:s,onHover:r,onFrame:o,onLook:a}){Tt(this,Xt);this.holder=t,this.roles=e,this.styles=n??{},this.gapScale=s,this.onHover=r,this.onLook=a,this.eye=new bo,this.fitted=!0,this.sized=!1,this.display={upper:"solid",lower:"solid",map:"pose",numbers:!0,around:!0},this.displays=0,this.move=ir,this.moves=0,E(this,Xt,mu).call(this),t.tabIndex=0,t.setAttribute("role","application"),t.style.position="relative",t.style.touchAction="none",E(this,Xt,Dl).call(this),this.painter=new Tl(t,this.gapScale,{eye:this.eye,ready:()=>!!this.teeth,model:l=>lp(this,l),drawn:l=>o?.({pose:this.pose?.number??null,...l}),resized:()=>this.sized?this.eye.showAsMuch():E(this,Xt,Ki).call(this)}),this.stage=this.painter.stage,this.stage&&E(this,Xt,Mg).call(this)}setTeeth(t,e){if(!this.stage)return;E(this,Xt,mu).call(this),this.teeth=t;let n={};this.boxes={};for(let s of pu){n[s]=Jf(t,e,s,this.roles);let{teeth:r,around:o}=n[s];this.boxes[s]=jf(r.positions.length>0?r:o)}this.sight=new Pl(n),this.stage.setCasts(n),this.painter.timeAgain(),E(this,Xt,Ll).call(this,ir),E(this,Xt,Wr).call(this),this.fitted&&E(this,Xt,Ki).call(this),this.painter.changed()}setPose(t,e){this.teeth&&(this.pose=t,this.posed=Float32Array.from(t.move),this.gaps.pose=vg(t,e),E(this,Xt,Ll).call(this,this.posed),E(this,Xt,Wr).call(this),this.fitted&&!E(this,Xt,gu).call(this).every(n=>this.eye.holds(n))&&E(this,Xt,Ki).call(this),E(this,Xt,Dl).call(this),this.painter.changed())}setMove(t){this.teeth&&(E(this,Xt,Ll).call(this,t),this.painter.changed())}moving(t){this.painter.moving(t)}setReach(t,e){this.teeth&&(this.gaps.excursion=t&&vg(t,e),E(this,Xt,Wr).call(this),this.painter.changed())}setTrail(t){this.trail=t??[],this.trailHidden=[],this.painter.changed()}setDisplay(t){this.display={...this.display,...t},this.displays+=1,this.teeth&&(E(this,Xt,Wr).call(this),this.fitted&&E(this,Xt,Ki).call(this),this.painter.changed())}mapOf(){let{map:t}=this.display;return this.gaps[t]?t:"none"}look(t){this.eye.look(t),this.fitted=!0,this.sized=!1,E(this,Xt,Ki).call(this),E(this,Xt,Nl).call(this)}camera(){return{...this.eye.kept(),fitted:this.fitted,sized:this.sized}}setCamera(t){this.eye.restore(t)&&(this.fitted=!!t.fitted,this.sized=!!t.sized,this.fitted&&E(this,Xt,Ki).call(this),E(this,Xt,Nl).call(this))}ring(t){this.ringed=t,this.painter.changed()}turn(t,e){this.eye.turn(t,e),this.fitted=!1,E(this,Xt,Nl).call(this)}pan(t,e){this.eye.pan(t,e),this.fitted=!1,this.sized=!0,this.painter.changed()}zoom(t,e,n){this.eye.zoom(t,e,n),this.fitted=!1,this.sized=!0,this.painter.changed()}placeNow(t){return this.display.upper!=="away"||!this.posed||this.move===this.posed?t:os(this.move,as(this.posed,t))}hitAt(t,e){let n=this.sight?.pick(this.eye.unproject(t,e),this.eye.towards);if(!n)return null;let{arch:s,surface:r,hit:o}=n,a=xg(r.index,o),l=r.tooth[a],c=this.mapOf(),h=c==="none"?null:this.stage.gapsOf(s);return{arch:s,tooth:l,name:this.teeth.names[l]??"",place:this.teeth.places[r.place[a]]??"",gap_mm:h&&_g(h,r.index,o,this.limitMm),farther_than_mm:this.limitMm,map:c,stale:c==="pose"&&this.move!==this.posed,x:t,y:e}}picture(t=[]){return this.painter.picture(t)}dispose(){cancelAnimationFrame(this.hovering),this.unfollow?.(),this.painter.dispose(),this.stage=null,this.teeth=null,this.sight=null}};Xt=new WeakSet,mu=function(){this.pose=null,this.posed=null,this.gaps={pose:null,excursion:null},this.gapsShown=null,this.limitMm=1,this.trail=[],this.trailHidden=[],this.ringed=null},Mg=function(){let t=e=>(...n)=>{e(...n),this.onLook?.(this.camera())};this.unfollow=yg(this.holder,{turn:t((e,n)=>this.turn(e,n)),pan:t((e,n)=>this.pan(e,n)),zoom:t((e,n,s)=>this.zoom(e,n,s)),hover:(e,n)=>E(this,Xt,_u).call(this,[e,n]),leave:()=>E(this,Xt,_u).call(this,null)})},Ll=function(t){this.move=t,this.moves+=1,this.stage.setMove(t),this.sight.move=t},Wr=function(){let t=this.mapOf(),e=this.gaps[t];if(e&&e!==this.gapsShown){this.gapsShown=e,this.limitMm=e.limitMm,this.stage.setLimit(e.limitMm);for(let n of pu)this.stage.setGaps(n,e[n])}this.sight.display=this.display,this.stage.setDisplay({...this.display,coloured:!!e})},Nl=function(){E(this,Xt,Dl).call(this),this.painter.changed()},gu=function(){if(!this.boxes)return[];let t=this.eye.turnedAway?null:Wb[this.eye.name];return pu.filter(n=>t?n===t:this.display[n]!=="away").flatMap(n=>{let s=Qf(this.boxes[n]);return n==="lower"?s.map(r=>os(this.move,r)):s})},Ki=function(){let t=E(this,Xt,gu).call(this);if(t.length===0)return;let{top:e,bottom:n}=rr(this.eye.height,this.display.map!=="none"),{beside:s,above:r}=Hb;this.eye.fit(t,{top:e+r,right:s,bottom:n+r,left:s})},Dl=function(){let t=this.pose?.words?` ${this.pose.words}`:"";Ie(this.holder,{"aria-label":`Casts, view: ${this.eye.title}.${t}`})},_u=function(t){this.onHover&&(this.hoverAt=t,this.hovering||(this.hovering=requestAnimationFrame(()=>{this.hovering=0,this.onHover(this.hoverAt&&this.hitAt(...this.hoverAt))})))};var vg=({map_limit_mm:i},{gap_upper:t,gap_lower:e})=>({upper:t,lower:e,limitMm:i});var Xb=24,Sg=1.15,zs,bg,wg,Ol=class{constructor(t,e){Tt(this,zs);this.which=t,this.calls=e,this.holder=A("div",{class:"holder",id:`view-${t}`,"aria-describedby":"keys-of-view"}),this.badge=A("p",{class:"badge",text:t.toUpperCase()}),this.hover=A("p",{class:"hover",id:`hover-${t}`}),this.work=A("div",{class:"work",id:`work-${t}`}),this.empty=A("p",{class:"empty",id:`empty-${t}`}),this.element=A("div",{class:"pane",id:`pane-${t}`},this.holder,this.badge,this.work,this.empty,this.hover);for(let n of[this.badge,this.hover,this.work,this.empty])Jt(n,!1)}make(t){this.view||(this.view=new Ul(this.holder,{colours:t.roles,styles:t.styles,gapScale:t.gap_scale,onHover:e=>E(this,zs,wg).call(this,e),onFrame:e=>this.calls.onFrame(this.which,e),onLook:()=>this.calls.onLook(this.which)}),this.holder.addEventListener("keydown",e=>E(this,zs,bg).call(this,e)))}working(t,e){Jt(this.work,t!==""),this.work.classList.toggle("skeleton",e),t!==this.workWords&&this.work.replaceChildren(...e?[Yb()]:[],A("p",{text:t})),this.workWords=t}trail(t,e,n,s){if(!this.view)return;let r=t.fresh?t.excursion(e,n):null,o=r?`${t.results.header.number} ${t.results.header.kind} ${e} ${n}`:"";o!==this.trailKey&&(this.trailKey=o,this.view.setTrail(r?$b(t,r,s):[]))}forgetTrail(){this.trailKey=null}};zs=new WeakSet,bg=function(t){if(t.ctrlKey||t.metaKey||t.altKey)return;let n={ArrowLeft:[-1,0],ArrowRight:[1,0],ArrowUp:[0,-1],ArrowDown:[0,1]}[t.key];if(n){let[s,r]=n.map(o=>o*Xb);t.shiftKey?this.view.pan(s,r):this.view.turn(s,r)}else if(t.key==="+"||t.key==="=")this.view.zoom(Sg);else if(t.key==="-")this.view.zoom(1/Sg);else return;t.preventDefault(),this.calls.onLook(this.which)},wg=function(t){if(Jt(this.hover,t!==null),!t)return;this.hover.textContent=qb(t);let{clientWidth:e,clientHeight:n}=this.holder,{offsetWidth:s,offsetHeight:r}=this.hover,o=Math.max(4,Math.min(t.x+14,e-s-4)),a=t.y+18+r>n?Math.max(4,t.y-r-12):t.y+18;this.hover.style.transform=`translate(${Math.round(o)}px, ${Math.round(a)}px)`};function $b(i,t,e){let{contacts:n}=t,s=i.buffer(n.place),r=i.buffer(t.moves);return[!0,!1].map(o=>{let a=n.side.flatMap((h,d)=>h!=="nonworking"===o?[d]:[]),l=new Float32Array(3*a.length);a.forEach((h,d)=>l.set(s.subarray(3*h,3*h+3),3*d));let c=a.map(h=>n.pose[h]);return{places:l,lowerPlaces:Cc(l,c,r),colour:e?.colour??"#1c1f24",shape:e?.shape??"o",filled:o}})}function qb(i){let t=[i.name||(i.tooth?`tooth ${i.tooth}`:""),i.place].filter(Boolean).join(", ");if(i.map==="none")return t;let e=i.gap_mm===null||i.gap_mm===void 0?`farther than ${qe(String(i.farther_than_mm),"mm")}`:qe(i.gap_mm.toFixed(2),"mm"),n=i.map==="excursion"?"nearest in the excursion":"gap",s=i.stale?" (at the last pose computed)":"";return`${t}: ${n} ${e}${s}`}function Yb(){let i=()=>A("div",{class:"skeleton-row"},Array.from({length:14},()=>A("span",{})));return A("div",{class:"skeleton-casts","aria-hidden":"true"},i(),i())}function Ag(i,t,e){let n=i.length-1,s=i.findIndex(l=>l>=e);s<0&&(s=n);let r=Math.max(s-1,0),o=i[s]-i[r],a=o>0?Math.min(Math.max((e-i[r])/o,0),1):0;return Float32Array.from({length:16},(l,c)=>(1-a)*t[16*r+c]+a*t[16*s+c])}var Zb=.3,Xr,xu,Fl=class{constructor({step:t,ended:e}){Tt(this,Xr);this.step=t,this.ended=e,this.playing=!1}start(){this.playing||(this.playing=!0,this.before=null,this.frame=requestAnimationFrame(t=>E(this,Xr,xu).call(this,t)))}stop(){this.playing&&(this.playing=!1,cancelAnimationFrame(this.frame),this.ended())}};Xr=new WeakSet,xu=function(t){if(!this.playing)return;let e=this.before===null?0:Math.min((t-this.before)/1e3,Zb);if(this.before=t,this.step(e)===!1){this.stop();return}this.frame=requestAnimationFrame(n=>E(this,Xr,xu).call(this,n))};var wn,Eg,Gs,Tg,Bl=class{constructor(t){Tt(this,wn);this.onFrame=t,this.all={},this.leader="a",new ResizeObserver(()=>requestAnimationFrame(()=>E(this,wn,Gs).call(this))).observe(zt("panes"))}of(t){return this.all[t]}open(t){let e=new Ol(t,{onFrame:(n,s)=>this.onFrame({which:n,...s}),onLook:n=>E(this,wn,Eg).call(this,n)});this.all[t]=e,zt("panes").append(e.element)}close(t){let e=this.all[t];e.view?.dispose(),e.element.remove(),delete this.all[t],Object.assign(this,{leader:"a",followed:null})}make(t,e){this.all[t].make(e)}look(t){for(let e of Object.values(this.all))e.looked=t,e.view?.look(t);E(this,wn,Gs).call(this)}teeth(t,e){let n=this.all[t];n.view.setTeeth(e.teeth.header,e.teeth.buffers),n.forgetTrail(),n.reach=void 0,n.hasTeeth=!0,E(this,wn,Gs).call(this)}pose(t,e,n){let{view:s}=this.all[t];s.setPose(e.pose.header,e.pose.buffers),s.stage||(document.documentElement.dataset.answered=String(e.pose.header.number)),this.moveAtOnce(e,n)}moveAtOnce(t,e){let n=this.all[t.which],s=t.pose?.header;if(!n?.hasTeeth||!s||!t.fresh||e.opening_mm>0||s.opened_mm>0)return!1;if(s.movement===e.movement&&s.start===e.start&&Math.abs(s.travel_mm-e.travel_mm)<1e-6)return!0;let o=t.excursion(e.movement,e.start);return o&&n.view.setMove(Ag(o.travel_mm,t.buffer(o.moves),e.travel_mm)),o!==null}get software(){return Object.values(this.all).some(({view:t})=>t?.stage?.software)}moving(t){for(let e of Object.values(this.all))e.view?.moving(t)}ring(t,e){for(let n of Object.values(this.all)){let{upper:s,lower:r,place:o}=e??{};n.view?.ring(e&&n.which===t?{upper:s,lower:r,place:o}:null)}}work(t,e){for(let[n,s]of Object.entries(t)){let r=this.all[n],o=!s.teeth,a=s.progress?.words??"";!a&&s.link==="apart"&&o?a=s.words:!a&&o&&(a=s.welcome?"Making the casts":"Connecting to the program on this machine"),s.fault&&o&&(a=s.fault.text),r.element.classList.toggle("old",s.hasOldCasts),s.hasOldCasts&&s.link!=="apart"&&(a=`${a||"Making the casts"}. Grey: the casts before`),r.working(a,o);let l=s.pose?.header,c=a||!l?"":Jb(l,s.excursion(l.movement,l.start));Jt(r.empty,c!==""),Rt(r.empty,{textContent:c}),Jt(r.badge,!!e?.b)}}update(t,e,n){zt("panes").classList.toggle("two",e.b!==null);let{upper:s,lower:r,numbers:o,around:a,look:l}=e.display,c={upper:s,lower:r,numbers:o,around:a,map:e.map},h=JSON.stringify(c);for(let[d,u]of Object.entries(t)){let f=this.all[d];f.view&&(h!==f.displayed&&f.view.setDisplay(c),f.displayed=h,l!==f.looked&&f.view.look(l),f.looked=l,f.element.classList.toggle("chosen",e.b!==null&&e.chosen===d),e.map==="excursion"?E(this,wn,Tg).call(this,f,u,e,n):f.trail(u,"","",null))}E(this,wn,Gs).call(this)}};wn=new WeakSet,Eg=function(t){this.leader=t,E(this,wn,Gs).call(this)},Gs=function(){let{a:t,b:e}=this.all;if(!t?.hasTeeth||!e?.hasTeeth)return;let[n,s]=this.leader==="b"?[e,t]:[t,e],r=n.view.camera(),o=JSON.stringify([n.which,n.holder.clientWidth,r]);o!==this.followed&&s.view.setCamera({...r,fitted:!1}),this.followed=o},Tg=function(t,e,n,s){let{movement:r,start:o}=n,{reach:a}=e,c=a&&e.keys.get(a.header.number)===e.wanted&&a.header.movement===r&&a.header.start===o?a:null;c!==t.reach&&t.view.setReach(c?.header??null,c?.buffers),t.reach=c,t.trail(e,r,o,s.styles[r])};function Jb(i,t){let e=i.opened_mm>0?"Opened: no contact":"No contact in this pose",n=t?.edge_to_edge_mm??null,s=n!==null&&i.travel_mm>n+1e-6;return[i.contacts.length===0?e:"",s?"Beyond edge-to-edge: crossover, not judged":""].filter(Boolean).join(" · ")}var Vs,Rg,Cg,kl=class{constructor(t){Tt(this,Vs);this.desk=t,this.player=new Fl({step:e=>E(this,Vs,Rg).call(this,e),ended:()=>E(this,Vs,Cg).call(this)})}get on(){return this.player.playing}stop(){this.player.stop()}toggle(){let{desk:t}=this;if(!(!t.history||t.state.movement===Qn)){if(this.on){this.stop();return}this.way=t.state.travel_mm>=t.movementBar.most-1e-6?-1:1,t.state.opening_mm>0&&t.put({opening_mm:0},null,"travel"),t.panes.moving(!0),t.results.moving(!0),this.player.start(),t.drawing.soon()}}};Vs=new WeakSet,Rg=function(t){let{desk:e}=this,{most:n,mmPerSecond:s}=e.movementBar,r=e.state.travel_mm+this.way*t*s,o=Math.min(Math.max(r,0),n),a=this.way>0?r>=n:r<=0;return a&&(this.way=-this.way),e.history.put({...e.state,travel_mm:Number(o.toFixed(3))},null,"travel"),e.asking.soon(),e.moveAtOnce(),e.drawing.travel(),!(a&&matchMedia("(prefers-reduced-motion: reduce)").matches)},Cg=function(){let{state:t}=this.desk;this.desk.history.put({...t,travel_mm:Number(t.travel_mm.toFixed(2))},null,"travel"),this.desk.end(),this.desk.panes.moving(!1),this.desk.asking.now(),this.desk.drawing.soon()};var Ig={float32:Float32Array,uint32:Uint32Array,uint16:Uint16Array,uint8:Uint8Array};function Pg(i){if(i.byteLength<4)throw new Error(`message of ${i.byteLength} bytes: too short for the length of a header`);let t=new DataView(i).getUint32(0,!0),e=4+t;if(e>i.byteLength)throw new Error(`message of ${i.byteLength} bytes: its header alone has ${t}`);let n=JSON.parse(new TextDecoder().decode(new Uint8Array(i,4,t))),s={};for(let[r,{type:o,shape:a,offset:l}]of Object.entries(n.buffers??{})){let c=Ig[o];if(!c)throw new Error(`buffer ${r}: type ${o} is none of ${Object.keys(Ig).join(", ")}`);let h=a.reduce((d,u)=>d*u,1);if(e+l+h*c.BYTES_PER_ELEMENT>i.byteLength)throw new Error(`buffer ${r}: runs past the end of the message`);s[r]=new c(i,e+l,h)}return{header:n,buffers:s}}var Lg=500,Kb=8e3,Ng="The program was ended. Start it again and open the address it shows.",jb={1001:Ng,1012:Ng,1013:"Too many pages are open. Close one of them; this one tries again."},Qb=5,tw="The program does not answer. If it was ended, start it again and open the address it shows; this page tries again meanwhile.",ew="The program was started anew and has a new address: open the one it shows. This page belongs to the program before.",nw="/page.css",ke,yu,Dg,Ug,Og,vu,Mu,zl=class{constructor(t,{onMessage:e,onState:n}){Tt(this,ke);this.address=t,this.onMessage=e,this.onState=n,this.number=0,this.waiting=null,this.inFlight=null,this.wait=Lg,this.closed=!1,E(this,ke,yu).call(this)}get isOpen(){return this.socket.readyState===WebSocket.OPEN}show(t,e){this.waiting={state:t,onSent:e},E(this,ke,vu).call(this)}ask(t,e){return this.isOpen?E(this,ke,Mu).call(this,t,e):null}get busy(){return this.inFlight!==null||this.waiting!==null}close(){this.closed=!0,clearTimeout(this.timer),this.socket.close()}};ke=new WeakSet,yu=function(){let t=new WebSocket(this.address);t.binaryType="arraybuffer",this.socket=t,t.addEventListener("open",()=>{this.wait=Lg,this.tries=0,this.ended="",this.onState("open","")}),t.addEventListener("message",({data:e})=>E(this,ke,Dg).call(this,e)),t.addEventListener("close",({code:e})=>E(this,ke,Ug).call(this,e))},Dg=function(t){let{header:e,buffers:n}=Pg(t),s=e.kind==="pose"||e.kind==="fault";s&&(e.number===this.inFlight||e.number===null)&&(this.inFlight=null),this.onMessage(e,n),s&&E(this,ke,vu).call(this)},Ug=function(t){if(this.inFlight=null,this.closed)return;this.tries=(this.tries??0)+1,this.ended=jb[t]??this.ended??"";let e=this.tries>Qb?tw:"Connection lost; trying again.";this.onState("apart",this.ended||e),this.tries>1&&E(this,ke,Og).call(this),this.timer=setTimeout(()=>E(this,ke,yu).call(this),this.wait),this.wait=Math.min(2*this.wait,Kb)},Og=async function(){let{ok:t}=await fetch(nw,{cache:"no-store"}).catch(()=>({ok:!1}));!t||this.closed||this.isOpen||this.socket.readyState===WebSocket.CONNECTING||(this.ended=ew,this.onState("apart",this.ended))},vu=function(){if(!this.waiting||this.inFlight!==null||!this.isOpen)return;let{state:t,onSent:e}=this.waiting;this.waiting=null,this.inFlight=E(this,ke,Mu).call(this,"show",t),e?.(this.inFlight)},Mu=function(t,e){return this.number+=1,this.socket.send(JSON.stringify({kind:t,number:this.number,...e})),this.number};var iw=200,An,Fg,Bg,Su,bu,Gl=class{constructor(t,e,n){Tt(this,An);this.which=t,this.onNews=n,this.link="opening",this.words="",this.keys=new Map,this.files=new Map,this.results=null,this.fault=null,this.progress=null,this.connection=new zl(e,{onMessage:(s,r)=>E(this,An,Fg).call(this,s,r),onState:(s,r)=>{this.link=s,this.words=r,s==="apart"&&E(this,An,Bg).call(this),s==="open"&&(this.last=null),n(s)}})}show(t){let e=no(t,this.which);this.wanted=ts(e);let n=JSON.stringify(e);n===this.last||!this.welcome||(this.last=n,this.connection.show(e,s=>{this.keys.set(s,ts(e)),this.keys.size>iw&&this.keys.delete(this.keys.keys().next().value),this.onNews("sent")}),this.onNews("sent"))}ask(t,e){let n=this.connection.ask(t,no(e,this.which));return n!==null&&this.files.set(n,t),n}isOfOther(t){let{of:e}=t??{};return!!(e&&this.wanted&&e!==JSON.parse(this.wanted)[0])}get hasOldCasts(){if(!this.teeth)return!1;let t=this.progress&&this.pose&&this.keys.get(this.pose.header.number)!==this.wanted;return this.isOfOther(this.teeth)||!!t}get whole(){return this.fresh&&this.results.whole}get computing(){return!this.whole&&!this.fault&&this.link!=="apart"}get fresh(){return this.results!==null&&this.results.key===this.wanted}excursion(t,e){return(this.results?.header.movements??[]).find(s=>s.movement===t&&s.start===e)??null}buffer(t){return this.results.buffers[t]}value(t,e){return e in t.changes?t.changes[e]:this.case?.values[e]??null}close(){this.connection.close()}};An=new WeakSet,Fg=function(t,e){let n=this.files.get(t.number);if(n){t.kind!=="progress"&&this.files.delete(t.number),this.onNews(t.kind==="file"?"file":"answer",{...t,asked:n});return}({welcome:()=>{this.welcome=t},case:()=>{this.case=t},progress:()=>{this.progress=t},teeth:()=>{this.teeth={header:t,buffers:e,of:E(this,An,bu).call(this,t)}},pose:()=>{this.pose={header:t,buffers:e},this.fault=null,this.progress=null},excursions:()=>E(this,An,Su).call(this,t,e),rest:()=>E(this,An,Su).call(this,t,e),reach:()=>{this.reach={header:t,buffers:e}},fault:()=>{this.fault=t,this.progress=null}})[t.kind]?.(),this.onNews(t.kind,t,e)},Bg=function(){this.progress=null;for(let t of this.files.values())this.onNews("answer",{kind:"fault",asked:t,text:"The connection was lost."});this.files.clear()},Su=function(t,e){let n=this.keys.get(t.number);this.results={header:t,buffers:e,whole:t.kind==="rest",key:n,of:E(this,An,bu).call(this,t)}},bu=function({number:t}){let e=this.keys.get(t);return e===void 0?null:JSON.parse(e)[0]};var Dt,kg,wu,zg,Gg,Vg,Hg,Wg,Au,Vl,Xg,Eu,Tu,$g,Ru,qg,Yg,Zg,Jg,Kg,jg,Hl=class{constructor(){Tt(this,Dt);this.notices=new vo,this.studies={},this.panes=new Bl(t=>E(this,Dt,Kg).call(this,t)),this.commands=new ro(this),this.drawing=new xo(this),this.playing=new kl(this),this.asking=new Zr(this),E(this,Dt,kg).call(this)}open(){this.panes.open("a"),this.panes.of("a").working("Connecting to the program on this machine",!0),E(this,Dt,wu).call(this,"a"),window.addEventListener("hashchange",t=>E(this,Dt,Hg).call(this,new URL(t.newURL).hash))}get state(){return this.history?.present??null}get study(){return this.state?this.studies[this.state.chosen]:null}take(t){let e=jl(t);Ql(e,this.welcome),this.notices.tell("link","fault",""),E(this,Dt,Au).call(this,e,null)}put(t,e=null,n=null){this.history&&E(this,Dt,Au).call(this,{...this.state,...t},e,n)}moveAtOnce(){return Object.values(this.studies).map(t=>this.panes.moveAtOnce(t,this.state)).every(Boolean)}set(t,e=null){if(!this.state)return;let{chosen:n}=this.state,s=E(this,Dt,Tu).call(this,t);ts(s)===ts(this.state[n])?this.drawing.soon():this.put({[n]:s},e)}reset(){let{chosen:t,display:e}=this.state;this.put({[t]:{...this.state[t],changes:{}},display:{...e,linked:{}}})}lookFrom(t){this.state&&(t!==this.state.display.look&&E(this,Dt,Ru).call(this,Ff(this.state.display,t)),this.panes.look(t))}travel(t,e){this.playing.on&&this.playing.stop(),e&&this.results.moving(!0),this.put({travel_mm:t},e,"travel")}end(){this.history?.end(),this.asking.rest(),this.results.moving(!1)}undo(){this.playing.stop(),this.history?.undo()&&E(this,Dt,Vl).call(this)}redo(){this.playing.stop(),this.history?.redo()&&E(this,Dt,Vl).call(this)}compare(){let{state:t}=this;if(t.b){let[e,n]=t.chosen==="a"?"AB":"BA";this.put({a:t[t.chosen],b:null,chosen:"a"}),this.commands.tell(`State ${e} is kept, ${n} is put away. Undo brings back both.`)}else this.put({b:{...t.a},chosen:"b"})}};Dt=new WeakSet,kg=function(){let t=()=>this.end(),e=(n,s)=>this.travel(n,s);bf({...this.commands.calls(),case:n=>E(this,Dt,qg).call(this,n),undo:()=>this.undo(),redo:()=>this.redo(),reset:()=>this.reset(),compare:()=>this.compare()}),this.settings=new mo({set:(n,s)=>this.set(n,s),end:t,link:(n,s,r)=>E(this,Dt,$g).call(this,n,s,r)}),this.lookBar=kf({display:n=>E(this,Dt,Ru).call(this,n),look:n=>this.lookFrom(n),map:n=>this.put({map:n})}),this.movementBar=new co({movement:n=>E(this,Dt,Yg).call(this,n),start:n=>this.put({start:n}),travel:e,end:t,play:()=>this.playing.toggle(),opening:(n,s)=>this.put({opening_mm:n},s,"opening")}),this.results=new fo({travel:e,end:t,pick:n=>E(this,Dt,Jg).call(this,n),movement:(n,s)=>this.put({movement:n,start:s})}),this.comparison=new _o({travel:e,end:t,choose:n=>this.put({chosen:n})},n=>this.settings.nameOf(n)),zt("results-body").append(this.results.element,this.comparison.element),Jt(this.comparison.element,!1)},wu=function(t){let e=new URLSearchParams(location.search).get("token")??"",s=`${location.protocol==="https:"?"wss":"ws"}://${location.host}/socket?token=${encodeURIComponent(e)}`;this.studies[t]=new Gl(t,s,(r,o)=>E(this,Dt,zg).call(this,t,r,o))},zg=function(t,e,n){let s=this.studies[t];({welcome:()=>E(this,Dt,Gg).call(this,t),case:()=>E(this,Dt,Wg).call(this,t),teeth:()=>this.panes.teeth(t,s),pose:()=>this.panes.pose(t,s,this.state),file:()=>this.commands.fileCame(n),answer:()=>this.commands.answered(n)})[e]?.(),e==="pose"&&this.notices.say(E(this,Dt,jg).call(this)),this.drawing.soon()},Gg=function(t){let e=this.studies[t];this.welcome||(this.welcome=e.welcome,wf(this.welcome),this.settings.make(this.welcome.controls),this.history=new yo(E(this,Dt,Vg).call(this)),Pf((...n)=>E(this,Dt,Zg).call(this,...n))),this.panes.make(t,this.welcome),E(this,Dt,Eu).call(this),this.asking.now()},Vg=function(){let t=ed(this.welcome.first);try{let e=Kl(location.hash);if(e===null)return t;let n=jl(e);return Ql(n,this.welcome),n}catch(e){return this.notices.tell("link","fault",`The state in the address cannot be shown: ${e.message}. The page starts with the usual one.`),t}},Hg=function(t){if(!(!this.welcome||t===this.fragment))try{let e=Kl(t);e!==null&&this.take(e)}catch(e){this.notices.tell("link","fault",`This link cannot be shown: ${e.message}. Nothing was changed.`)}},Wg=function(t){let{movements:e,name:n}=this.studies[t].case;if(t!==this.state.chosen||n!==this.state[t].case)return;let s=(l,c)=>e.some(h=>h.movement===l&&h.start===c),{movement:r,start:o}=this.state;if(s(r,o))return;let a=e.find(l=>l.movement===r)??e[0];this.history.amend({...this.state,movement:a.movement,start:a.start}),this.asking.now()},Au=function(t,e,n=null){this.notices.tell("done","info",""),this.history.put(t,e,n),e===null||n!=="travel"?E(this,Dt,Vl).call(this):E(this,Dt,Xg).call(this)},Vl=function(){E(this,Dt,Eu).call(this),this.asking.now(),this.moveAtOnce(),this.drawing.soon()},Xg=function(){this.moveAtOnce()?this.asking.soon():this.asking.now(),this.drawing.soon()},Eu=function(){let t=this.state.b!==null;if(t&&!this.studies.b){this.panes.open("b"),E(this,Dt,wu).call(this,"b");let{a:e,b:n}=this.studies;this.state.b.case===this.state.a.case&&(n.case=e.case)}else!t&&this.studies.b&&(this.studies.b.close(),delete this.studies.b,this.panes.close("b"))},Tu=function(t){return nd(this.state[this.state.chosen],t,this.study.case?.values??{})},$g=function(t,e,n){let s={...this.state.display,linked:{...this.state.display.linked,[t]:e}},{chosen:r}=this.state,o=E(this,Dt,Tu).call(this,n);this.put({display:s,[r]:o})},Ru=function(t){this.put({display:{...this.state.display,...t}})},qg=function(t){this.put({[this.state.chosen]:{case:t,changes:{}}})},Yg=function(t){let e=(this.study.case?.movements??[]).filter(r=>r.movement===t),n=e.some(r=>r.start===this.state.start)?this.state.start:e[0]?.start,s=t===Qn?{travel_mm:0}:{};this.put({movement:t,start:n??this.state.start,...s})},Zg=function(t,e,n,s){let r={...this.state.display,look:s};this.put({...n,display:r,a:{case:t,changes:e},b:null,chosen:"a"}),this.panes.look(s)},Jg=function(t){if(this.ringed=t,this.panes.ring(this.state.chosen,t),!t?.movement)return;let{movement:e,start:n}=t;this.put({movement:e,start:n,opening_mm:0,travel_mm:sw(t)})},Kg=function({which:t,pose:e}){let{dataset:n}=document.documentElement;n.frames=String(Number(n.frames??0)+1),t==="a"&&e!==null&&(n.answered=String(e))},jg=function(){let{state:t,studies:e}=this;return t.b?["a","b"].map(n=>`${n.toUpperCase()}: ${e[n]?.pose?.header.words??""}`).join(". "):e.a.pose?.header.words??""};function sw({from_mm:i,to_mm:t}){if(i===null)return 0;let e=Math.round(5*(i+t))/10;return Number((e>=i&&e<=t?e:i).toFixed(3))}var rw="input[type=text], textarea, select",ow="button, summary, a, input, select";function Qg(i){let t=e=>e.target.matches?.("input[type=text]");document.addEventListener("input",e=>{t(e)&&(e.target.dataset.dirty="")}),document.addEventListener("change",e=>{t(e)&&delete e.target.dataset.dirty}),document.addEventListener("keydown",e=>{if(document.querySelector("dialog[open]"))return;let n=e.ctrlKey||e.metaKey?aw(e):null;if(n){if("dirty"in(e.target.dataset??{}))return;e.preventDefault(),i[n]();return}if(e.ctrlKey||e.metaKey||e.altKey||e.target.closest?.(rw))return;let s=Bf[Number(e.key)-1];e.key==="?"?Qr():s?i.look(s):e.key===" "&&!e.target.closest?.(ow)&&(e.preventDefault(),i.play())})}function aw(i){let t=i.key.toLowerCase();return t==="z"?i.shiftKey?"redo":"undo":t==="y"?"redo":null}var lw="(max-width: 900px)";function t0(){let i=matchMedia(lw),t=()=>{let[e,n]=[zt("settings"),zt("centre")],{activeElement:s}=document,{scrollTop:r}=e;i.matches?n.after(e):n.before(e),e.scrollTop=r,e.contains(s)&&s.focus({preventScroll:!0})};i.addEventListener("change",t),t()}t0();var $r=new Hl;Qg({undo:()=>$r.undo(),redo:()=>$r.redo(),play:()=>$r.playing.toggle(),look:i=>$r.lookFrom(i)});$r.open();
